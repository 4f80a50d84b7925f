// The plan and its earlier forms, so that every change can be taken back and made again.

const MOST = 100;

/** {current, set, undo, redo, at}: `set(plan, key)` replaces the plan; changes of one key in a row (typing in one field) are one step.
    `at()` says how many steps lie behind and ahead. A plan that was set is not changed again: `copy()` gives one to change, which
    shares the past weeks: nobody changes those, and they are long. */
export function versions(plan) {
  let behind = [], ahead = [], last = null;
  const step = (from, to) => {
    if (!from.length) return false;
    to.push(plan);
    plan = from.pop();
    last = null;
    return true;
  };
  return {
    current: () => plan,
    copy: () => ({ ...structuredClone({ ...plan, before: [] }), before: plan.before }),
    set(next, key = null) {
      if (key === null || key !== last) behind = [...behind, plan].slice(-MOST);
      [plan, ahead, last] = [next, [], key];
    },
    undo: () => step(behind, ahead),
    redo: () => step(ahead, behind),
    at: () => ({ behind: behind.length, ahead: ahead.length }),
  };
}
