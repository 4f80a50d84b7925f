// Several curves in one drawing: where their labels stand so that none covers another.

/** Centres of labels as near as can be to where they are wanted, none nearer to the next than both need, within `low` and `high` if they fit. */
export function apart(wanted, heights, low, high) {
  const order = wanted.map((_, n) => n).sort((a, b) => wanted[a] - wanted[b] || a - b), found = [];
  let edge = low;
  for (const n of order) {
    found[n] = Math.max(wanted[n], edge + heights[n] / 2);
    edge = found[n] + heights[n] / 2;
  }
  edge = Math.max(high, low + heights.reduce((sum, height) => sum + height, 0));
  for (const n of order.reverse()) {
    found[n] = Math.min(found[n], edge - heights[n] / 2);
    edge = found[n] - heights[n] / 2;
  }
  return found;
}

/** Curves that are told together, as lists of their places, in the order of the first: those of one key; undefined keys are left out. */
export function together(keys) {
  const found = new Map();
  keys.forEach((key, n) => { if (key !== undefined) found.set(key, [...found.get(key) ?? [], n]); });
  return [...found.values()];
}

/** Sets of curves that look alike, as lists of their places: the same curves are known, and no value differs by more than `most`. */
export function alike(sets, most) {
  const same = (a, b) => a.every((curve, n) => !curve === !b[n] && (curve ?? []).every((value, at) => Math.abs(value - b[n][at]) <= most));
  const groups = [];
  sets.forEach((set, n) => {
    const group = groups.find(([first]) => same(sets[first], set));
    if (group) group.push(n); else groups.push([n]);
  });
  return groups;
}

/** A name in lines of at most so many letters, where its words allow. */
export function lines(name, most) {
  const made = [];
  for (const word of name.split(" ")) {
    const longer = made.length ? `${made.at(-1)} ${word}` : word;
    if (made.length && longer.length <= most) made[made.length - 1] = longer;
    else made.push(word);
  }
  return made;
}
