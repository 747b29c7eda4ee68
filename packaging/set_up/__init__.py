"""The set-up behind `packaging/run.py`: standard library only, for it runs before anything else.

Its sentences stand in the code, as the only ones of the project: there is no catalogue yet when
they are said.
"""
