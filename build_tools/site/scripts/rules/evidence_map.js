// The evidence map: what fits what is asked, where an arrow key leads in a table, and the query as it stands in the fragment.
//
// A query asks for: muscle, the one shown where there is room for one; has, the equipment at hand ("none" alone for the body alone);
// avoid, concerns that no caution may speak of. What is empty asks nothing.

const FIELDS = ["muscle", "has", "avoid"];

/** Whether an exercise {equipment, concerns} fits. */
export const suits = (exercise, { has, avoid }) =>
  (!has.length || exercise.equipment.every((id) => has.includes(id))) && !exercise.concerns.some((id) => avoid.includes(id));

/** The query of a fragment; `known` holds the values that each field may have, and what is not among them is left out. */
export function asked(known, fragment) {
  const given = new Map(fragment.replace(/^#/, "").split("&").map((pair) => pair.split("=")));
  const of = (field) => [...new Set((given.get(field) ?? "").split(","))].filter((value) => known[field].includes(value)).sort();
  return { muscle: of("muscle")[0] ?? "", has: of("has"), avoid: of("avoid") };
}

/** The fragment of a query, which says nothing of empty fields; empty where nothing is asked. */
export function written(query) {
  const told = FIELDS.filter((field) => query[field].length).map((field) => `${field}=${[query[field]].flat().join(",")}`);
  return told.length ? `#${told.join("&")}` : "";
}

const WAYS = { ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] };

/** [row, column] that a key leads to from there, over cells where nothing can be reached; null where it leads nowhere. `cells` tells of each
    row which columns can be reached. Home and End go to the ends of the row, with `far` to the first and last row of the column. */
export function led(cells, [row, column], key, far) {
  const open = (r, c) => Boolean(cells[r]?.[c]);
  if (key === "Home" || key === "End") {
    const line = far ? cells.map((_, r) => [r, column]) : cells[row].map((_, c) => [row, c]);
    return (key === "Home" ? line : line.reverse()).find(([r, c]) => open(r, c)) ?? null;
  }
  const [down, right] = WAYS[key] ?? [0, 0];
  if (!down && !right) return null;
  for (let r = row + down, c = column + right; cells[r] !== undefined && c >= 0 && c < cells[r].length; r += down, c += right) {
    if (open(r, c)) return [r, c];
  }
  return null;
}
