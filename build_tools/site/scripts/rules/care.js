// What a handout says first to a client who has to take care.
//
// `known` holds the concerns of this handbook, {id: [name, go-ahead or null, [emergency sign, ...]]}; `files` what data/care/<concern>.json
// holds of each, {concern: {exercise: [[who, instead, stop if, ask, afterwards?], ...]}}, or null for what could not be had.

/** For each concern asked for, in order: {id, name, before, help, lines: [[exercise, [who, instead, stop if, ask, afterwards?]], ...], silent: [exercise, ...]}.
    Its name is null where the handbook no longer has it, its lines where they could not be had. `exercises` may name one twice. */
export function careful(care, known, files, exercises) {
  const ids = [...new Set(exercises)];
  return care.map((id) => {
    const [name, before, help] = Object.hasOwn(known, id) ? known[id] : [null, null, []], file = name === null ? null : files[id] ?? null;
    const own = (exercise) => (file !== null && Object.hasOwn(file, exercise) ? file[exercise] : []);
    return { id, name, before, help, lines: file && ids.flatMap((exercise) => own(exercise).map((line) => [exercise, line])),
      silent: file ? ids.filter((exercise) => !own(exercise).length) : [] };
  });
}
