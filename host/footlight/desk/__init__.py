"""The page in the browser: routes, templates and static files. It has no rule of its own: what it says comes
from `views`, what it does from `actions`, and what is typed is read by `written` and `quantities`."""
