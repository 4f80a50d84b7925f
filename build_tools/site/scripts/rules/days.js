// The days of a handout: 0 (Monday) to 6, or null for one that stands alone.

/** The day of a Date, where the reader is. */
export const weekday = (date) => (date.getDay() + 6) % 7;

/** How often a week turns before a day comes, from today on: 0 for today. */
const ahead = ({ day }, today) => (day - today + 7) % 7;

/** The days of a handout in the order in which they come, from today on. */
export const upcoming = (days, today) => [...days].sort((a, b) => ahead(a, today) - ahead(b, today));

/** The first day of 0 to 6 that is not taken; null when all are. */
export const free = (taken) => [0, 1, 2, 3, 4, 5, 6].find((day) => !taken.includes(day)) ?? null;
