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

// A scan is dropped onto its place; one that is too large is told before it is sent.
document.addEventListener("DOMContentLoaded", () => {
  const place = document.querySelector("[data-drop]");
  if (!place) return;
  const input = place.querySelector("input[type=file]");
  const form = place.closest("form");
  const told = document.getElementById(`${input.id}-wrong`);
  for (const name of ["dragover", "dragleave", "drop"]) {
    place.addEventListener(name, (event) => {
      event.preventDefault();
      place.classList.toggle("over", name === "dragover");
      if (name === "drop" && event.dataTransfer.files.length) {
        input.files = event.dataTransfer.files;
        input.dispatchEvent(new Event("change", { bubbles: true }));
      }
    });
  }
  const isTooLarge = () => input.files[0] && input.files[0].size > Number(form.dataset.mostBytes);
  input.addEventListener("change", () => {
    const megabytes = (bytes) => `${Math.round(bytes / 1e6)} MB`;
    told.textContent = isTooLarge()
      ? `${input.files[0].name} has ${megabytes(input.files[0].size)}; at most ${megabytes(form.dataset.mostBytes)} are taken: scan at 300 to 600 dots an inch, grey`
      : "";
  });
  form.addEventListener("submit", (event) => { if (isTooLarge()) event.preventDefault(); });
});

// The corners of a strip are dragged to it; the field below says where they lie, and can be typed.
document.addEventListener("DOMContentLoaded", () => {
  const scan = document.querySelector("[data-scan]");
  const field = document.getElementById("corners");
  if (!scan || !field) return;
  const corners = [...scan.querySelectorAll(".corner")];
  const written = () => corners.map((one) => `${Number(one.getAttribute("cx")).toFixed(1)}, ${Number(one.getAttribute("cy")).toFixed(1)}`).join("; ");
  for (const corner of corners) {
    let isHeld = false;
    corner.addEventListener("pointerdown", (event) => {
      isHeld = true;
      corner.setPointerCapture(event.pointerId);
      event.preventDefault();
    });
    corner.addEventListener("pointermove", (event) => {
      if (!isHeld) return;
      const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(scan.getScreenCTM().inverse());
      corner.setAttribute("cx", Math.max(0, point.x));
      corner.setAttribute("cy", Math.max(0, point.y));
      field.value = written();
    });
    corner.addEventListener("pointerup", () => { isHeld = false; });
  }
});

// Edges of a strip's steps are dragged along it; the field below says where they lie, and can be typed.
document.addEventListener("DOMContentLoaded", () => {
  const scan = document.querySelector("[data-scan]");
  const edges = document.getElementById("edges");
  if (!scan || !edges) return;
  const outline = scan.querySelector(".outline");
  if (!outline) return;
  const corners = [...outline.points].map((point) => [point.x, point.y]);
  const along = [corners[1][0] - corners[0][0], corners[1][1] - corners[0][1]];
  const length = Math.hypot(...along);
  const movable = [...scan.querySelectorAll(".edge.movable")];
  const written = () => movable.map((line) => Number(line.dataset.at)).sort((a, b) => a - b);
  let held = null;
  let last = null;
  const at = (event) => {
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(scan.getScreenCTM().inverse());
    return ((point.x - corners[0][0]) * along[0] + (point.y - corners[0][1]) * along[1]) / length;
  };
  const move = (line, by) => {
    for (const [x, y] of [["x1", "y1"], ["x2", "y2"]]) {
      line.setAttribute(x, Number(line.getAttribute(x)) + (by * along[0]) / length);
      line.setAttribute(y, Number(line.getAttribute(y)) + (by * along[1]) / length);
    }
    line.dataset.at = (Number(line.dataset.at) + by).toFixed(2);
  };
  for (const line of movable) {
    line.addEventListener("pointerdown", (event) => {
      held = line;
      last = at(event);
      line.classList.add("held");
      line.setPointerCapture(event.pointerId);
      event.preventDefault();
    });
    line.addEventListener("pointermove", (event) => {
      if (held !== line) return;
      const now = Math.min(length, Math.max(0, at(event)));
      move(line, now - last);
      last = now;
      edges.value = written().map((mm) => mm.toFixed(1)).join(", ");
    });
    line.addEventListener("pointerup", () => {
      line.classList.remove("held");
      held = null;
    });
  }
});
