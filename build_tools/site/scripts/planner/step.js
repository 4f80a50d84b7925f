// Figures that move in step: one button starts and stops all of them. Who wants little motion turns from the start to the finish instead.

const MILLISECONDS = 220;

/** The step of a way there and back over so many postures. */
const swing = (at, count) => (count - 1) - Math.abs((count - 1) - at % (2 * (count - 1)));

/** Works the button for these figures: each holds a `.start`, a `.finish` and several `.step`, of which one is `on`; what stays in its place stands in `.still`. Gives what ends it. */
export function inStep(button, figures) {
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  let at = 0, timer = 0, finish = false;

  function show(which) {
    for (const figure of figures) {
      const steps = figure.querySelectorAll(".step"), shown = which(figure, steps);
      for (const one of figure.querySelectorAll("g")) one.classList.toggle("on", one === shown);
    }
  }
  function end() {
    clearInterval(timer);
    timer = 0;
  }
  const name = () => { button.textContent = calm.matches ? finish ? "Show the start" : "Show the finish" : timer ? "Pause" : "Move in step"; };
  button.onclick = () => {
    if (calm.matches) {
      end();
      finish = !finish;
      show((figure) => figure.querySelector(finish ? ".finish" : ".start"));
    } else if (timer) end();
    else timer = setInterval(() => { at += 1; show((_, steps) => steps[swing(at, steps.length)]); }, MILLISECONDS);
    name();
  };
  name();
  return end;
}
