"""`python -m coachdesk`."""

import sys

from coachdesk.app.main import main

sys.exit(main())
