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

// Steps are arranged by the mouse too; the arrows beside each do the same.
document.addEventListener("DOMContentLoaded", () => {
  let held = null;
  const steps = document.querySelectorAll(".steps > li");
  for (const step of steps) {
    const legend = step.querySelector("legend");
    legend.draggable = true;
    legend.addEventListener("dragstart", (event) => {
      held = step.dataset.step;
      event.dataTransfer.effectAllowed = "move";
      event.dataTransfer.setData("text/plain", held);
    });
    step.addEventListener("dragover", (event) => {
      if (held === null) return;
      event.preventDefault();
      step.classList.add("over");
    });
    step.addEventListener("dragleave", () => step.classList.remove("over"));
    step.addEventListener("drop", (event) => {
      event.preventDefault();
      step.classList.remove("over");
      if (held === null || held === step.dataset.step) return;
      const act = document.createElement("button");
      act.name = "do";
      act.value = `move ${held} ${step.dataset.step}`;
      act.hidden = true;
      step.closest("form").append(act);
      act.click();
    });
  }
});

// A page on which nothing was typed takes up by itself what its file says now.
let isTyped = false;
document.addEventListener("input", () => { isTyped = true; });
document.addEventListener("htmx:afterSettle", (event) => {
  const link = document.querySelector("[data-take-up]");
  const form = document.querySelector("form.sequence");
  if (link && form && !isTyped && !form.dataset.changed) location.href = link.href;
});

// A run is followed as it goes on; what comes is a part of the page, made by the server.
document.addEventListener("DOMContentLoaded", () => {
  const run = document.querySelector("[data-moments]");
  if (!run) return;
  const moments = new EventSource(run.dataset.moments);
  moments.onmessage = (event) => { run.innerHTML = event.data; };
  moments.onerror = () => {
    if (moments.readyState !== EventSource.CLOSED) return;
    run.innerHTML = "<p class=\"wrong\">The desk was ended. What was entered is kept; open it again.</p>";
  };
  window.addEventListener("pagehide", () => moments.close());
});
