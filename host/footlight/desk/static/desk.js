/* What a page can do only with a script; without it everything else still works. */
"use strict";

// A field whose fault was told or mended while it was typed says so to whoever cannot see it.
document.addEventListener("htmx:afterSettle", () => {
  for (const fault of document.querySelectorAll(".wrong[id$='-wrong']")) {
    const field = document.getElementById(fault.id.slice(0, -6));
    if (!field) continue;
    if (fault.textContent.trim()) field.setAttribute("aria-invalid", "true");
    else field.removeAttribute("aria-invalid");
  }
});
