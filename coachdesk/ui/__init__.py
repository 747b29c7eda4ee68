"""The desktop: Qt widgets over presenters; first paint needs nothing but Qt."""
