"""Our own small kit of widgets."""
