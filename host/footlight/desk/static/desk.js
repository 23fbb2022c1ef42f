/* What a page can do only with a script; without it everything else still works. */
"use strict";
