// Parts by exercises: which rows the page Compare shows and in which order, and which pairs no study compares.

/** From this rank on a statement is no finding of growth or activation; see build_tools/planning/pairs.py. */
export const FINDINGS = 8;

/**
 * [{muscle, told, aside, parts: [{part, told, aside}]}]: the parts that any of the exercises trains or was measured on, and what compares
 * two of them there. Muscles of which growth was compared stand first, then those trained directly by most. `aside` is what none trains
 * directly and where nothing was compared. `places`: muscles and parts in the catalog's order; `cells`: {part: cell} of each exercise;
 * `told`: statements {part, rank}, best first.
 */
export function grid(places, cells, told) {
  const of = (ref) => told.filter(({ part }) => part === ref), shown = new Map();
  const direct = (ref) => cells.filter((one) => one[ref]?.counts === "direct").length;
  for (const ref of places) {
    const [muscle, part] = ref.split("/"), some = of(ref);
    if (!some.length && !cells.some((one) => ref in one)) continue;
    if (!shown.has(muscle)) shown.set(muscle, { muscle, told: [], parts: [] });
    if (part) shown.get(muscle).parts.push({ part: ref, told: some, aside: !some.length && !direct(ref) });
    else shown.get(muscle).told = some;
  }
  const best = ({ told: whole, parts }) => Math.min(FINDINGS, ...[...whole, ...parts.flatMap((one) => one.told)].map(({ rank }) => rank));
  const trained = ({ parts }) => parts.reduce((sum, { part }) => sum + direct(part), 0);
  return [...shown.values()].map((one) => ({ ...one, aside: !one.told.length && one.parts.every(({ aside }) => aside) }))
    .sort((a, b) => best(a) - best(b) || trained(b) - trained(a));
}

/** The pairs that no study compares, as [id, id]; an exercise that is in no compared pair stands once, as [id]; all of them as []. */
export function uncompared(ids, compared) {
  const known = new Set(compared.map((pair) => [...pair].sort().join("--")));
  if (!known.size) return [[]];
  const pairs = ids.flatMap((one, n) => ids.slice(n + 1).map((two) => [one, two])).filter((pair) => !known.has([...pair].sort().join("--")));
  const alone = ids.filter((id) => !compared.some((pair) => pair.includes(id)));
  return [...alone.map((id) => [id]), ...pairs.filter((pair) => !pair.some((id) => alone.includes(id)))];
}
