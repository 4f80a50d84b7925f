// The data of the working pages in files (build_tools/planning/questions.py): what every page asks at once, and what an answer needs by muscle.

const ASKED = ["joints", "lengths", "best"];

/** The muscles of these parts, whose files an answer on them needs. */
export const musclesOf = (parts) => [...new Set(parts.map((part) => part.split("/")[0]))];

/** `data` (data/planner.json) with what these files hold of their muscles' parts (data/planner/<muscle>.json); `data` itself stays as it is. */
export function answerable(data, files) {
  const exercises = Object.fromEntries(Object.entries(data.exercises).map(([id, one]) => [id, { ...one, joints: {}, lengths: {}, best: {} }]));
  const statements = [], orders = {};
  for (const held of files) {
    for (const [id, one] of Object.entries(held.exercises)) {
      const best = Object.entries(one.best ?? {}).map(([part, places]) => [part, Object.fromEntries(Object.entries(places).map(([place, n]) => [place, n + statements.length]))]);
      const told = { ...one, best: Object.fromEntries(best) };
      for (const key of ASKED) Object.assign(exercises[id][key], told[key]);
    }
    statements.push(...held.statements);
    Object.assign(orders, held.orders);
  }
  return { ...data, exercises, statements, orders };
}
