// A dose in plain words, and what stands outside the handbook's ranges.

const counted = (number, thing) => `${number} ${thing}${String(number) === "1" ? "" : "s"}`;

/** `8-12` as `8 to 12 repetitions`, `30s` as `30 seconds`. */
function amount(repetitions) {
  const [low, high] = repetitions.replace("s", "").split("-");
  return counted(high ? `${low} to ${high}` : low, repetitions.endsWith("s") ? "second" : "repetition");
}

function time(seconds) {
  if (seconds < 120) return counted(seconds, "second");
  const [minutes, rest] = [Math.floor(seconds / 60), seconds % 60];
  return counted(minutes, "minute") + (rest ? ` ${counted(rest, "second")}` : "");
}

function pace(tempo) {
  const [down, low, up, high] = tempo.split("-");
  const hold = (seconds) => (seconds && seconds !== "0" ? [`hold for ${seconds}`] : []);
  return `Lower for ${[counted(down, "second"), ...hold(low), `lift for ${up}`, ...hold(high)].join(", ")}.`;
}

/** What and how much, in one short line; empty when nothing is given. */
export function work({ sets, repetitions, load }) {
  const parts = [sets && counted(sets, "set"), repetitions && amount(repetitions)].filter(Boolean);
  return [parts.join(" of "), load?.replaceAll(" ", "\u00a0")].filter(Boolean).join(", ");
}

function effort(left) {
  return left === 0 ? "Go on until you cannot do one more with good form." : `Stop when you could still do about ${left} more.`;
}

/** What to do, as [what and how much, ...sentences]; the first may be empty. */
export function dose(item) {
  const said = [work(item)];
  if (item.left !== null) said.push(effort(item.left));
  if (item.rest !== null) said.push(item.rest === 0 ? "No rest between sets." : `Rest ${time(item.rest)} between sets.`);
  if (item.tempo !== null) said.push(pace(item.tempo));
  return said;
}

/** The numbers of a field that have a range: lowest and highest, or null. */
function span(field, value) {
  if (field === "load") {
    const percent = /^([0-9]+(?:\.[0-9]+)?) ?%/.exec(value);
    return percent && [Number(percent[1]), Number(percent[1])];
  }
  if (field === "tempo") {
    const [down, , up] = value.split("-").map(Number);
    return [down + up, down + up];
  }
  if (field === "repetitions" && value.endsWith("s")) return null;
  const numbers = String(value).split("-").map(Number);
  return [numbers[0], numbers.at(-1)];
}

/** What to say on a value outside the handbook's ranges; empty when it is within, or when there is no range for it. */
export function outside(field, value, doses) {
  const range = doses[field], numbers = range && value !== null ? span(field, value) : null;
  if (!numbers) return "";
  const within = (range.low === null || numbers[0] >= range.low) && (range.high === null || numbers[1] <= range.high);
  return within ? "" : range.says;
}
