"""The front door for Python: values, plans and answers in millimetres."""
