// Looks words up and says which files are needed; what a word can mean and how places are ordered is decided in rules/.
// The tree of words with look-up by beginning and by slips is MiniSearch's.

import { asked, joined, meanings, readings, slips, spelled, stem, swapped } from "../rules/query.js";
import { isNearest, NEAR, rank, ranked } from "../rules/ranking.js";
import SearchableMap from "./searchable-map.js";

const MOST_BEGUN = 6, MOST_NEAR = 8, MOST_FILES = 3;
const EVERYWHERE = 1e6; // places, of a word that any other makes rarer
const MOST_OF_WORD = 8; // files of one word: the places in the first go first where nothing else decides

/** Words of an index: where each stands and how many places it has. */
class Lexicon {
  /** `files`: for each file its words, each with its number of places there; `nameless`: words that are known and have no file. */
  constructor(files, same = [], nameless = []) {
    this.words = new SearchableMap();
    this.stems = new Map();
    const know = (word, count, more) => {
      const one = this.words.get(word) ?? { word, count: 0, files: [] };
      if (!one.files.length && !one.count) this.stems.set(stem(word), [...(this.stems.get(stem(word)) ?? []), word]);
      this.words.set(word, { word, count: one.count + count, files: [...one.files, ...more] });
    };
    files.forEach((held, file) => held.forEach(([word, count]) => know(word, count, [file])));
    nameless.forEach((word) => know(word, EVERYWHERE, []));
    this.same = same.map((group) => group.map(stem));
  }

  exact(word) { return this.stems.get(stem(word)) ?? []; }

  /** Other words for it. */
  alike(word) {
    const key = stem(word);
    return this.same.filter((group) => group.includes(key)).flat().filter((other) => other !== key)
      .flatMap((other) => this.stems.get(other) ?? []);
  }

  begun(word, least) {
    if (word.length < least) return [];
    return [...this.words.atPrefix(word).values()].filter((one) => one.word !== word).sort((a, b) => b.count - a.count)
      .slice(0, MOST_BEGUN).map((one) => one.word);
  }

  near(word) {
    const most = slips(word);
    if (!most) return [];
    const found = [...this.words.fuzzyGet(word, most).values()].map(([one, count]) => [one.word, count])
      .filter(([other]) => word.length > 5 || other[0] === word[0]);
    const turned = swapped(word).flatMap((other) => this.exact(other)).map((other) => [other, 1]);
    return [...turned, ...found].sort((a, b) => a[1] - b[1]).slice(0, MOST_NEAR);
  }

  /** {costs, files, count} of a word; `alone` where it is the whole query. */
  slot(word, alone) {
    const exact = this.exact(word), same = this.alike(word), near = exact.length || same.length ? [] : this.near(word);
    const costs = meanings(word, { exact, same, begun: this.begun(word, alone ? 2 : 3), near });
    const found = Object.keys(costs).flatMap((key) => this.stems.get(key) ?? []).map((other) => this.words.get(other));
    return { costs, files: unique(found.flatMap(({ files }) => files.slice(0, MOST_OF_WORD))), count: found.reduce((all, { count }) => all + count, 0) };
  }
}

const pairs = (flat) => flat.flatMap((word, n) => n % 2 ? [] : [[word, flat[n + 1]]]);
const unique = (list) => [...new Set(list)];

/** Names: which files a query needs, and the places of those that were fetched in order. */
export class Names {
  /** `index`: search/names.json. */
  constructor({ words, same, kinds, nameless }) {
    this.lexicon = new Lexicon(words.map(pairs), same, nameless);
    this.kinds = kinds;
    this.places = new Map();
  }

  /** Take the places of a file. */
  add(rows) {
    for (const [id, kind, weight, title, address, note, others] of rows) {
      const names = [title, ...others].map((name) => asked(name).map(stem));
      this.places.set(id, { kind, weight, title, address, note, others, names, note_stems: spelled(note).map(stem) });
    }
  }

  /** {run, ways, files}: the readings of a query, and the numbers of the files that are needed, those of the rarest words first. */
  read(text) {
    const words = asked(text), known = (word) => this.lexicon.exact(word).length > 0;
    const ways = readings(words, known, (word) => this.lexicon.near(word).length > 0)
      .map((way) => way.map((word) => this.lexicon.slot(word, way.length === 1)));
    const rarest = ways.map((way) => way.filter(({ count }) => count).sort((a, b) => a.count - b.count));
    return {
      run: joined(words), ways: ways.map((way) => way.map(({ costs }) => costs)),
      files: unique(rarest.flatMap((way) => way.slice(0, 1)).flatMap(({ files }) => files)),
      more: unique(rarest.flatMap((way) => way.slice(1, MOST_FILES)).flatMap(({ files }) => files)),
    };
  }

  /** {found, named}: places with their ranks, best first, and whether one of them is called so. */
  find({ run, ways }) {
    const found = [...this.places.values()].map((place) => ({
      place, rank: Math.min(...ways.map((way) => rank({ ...place, note: place.note_stems }, way, run))),
    })).filter((one) => one.rank < Infinity);
    const best = ranked(found), named = best.length > 0 && best[0].rank < NEAR;
    return { found: best.filter(named ? (one) => one.rank < NEAR + 1 : isNearest), named };
  }
}

/** Sections of pages by their words: numbers, and what they are called once those files were fetched. */
export class Texts {
  /** `index`: search/texts.json; `same`: of search/names.json. */
  constructor({ words, most, each }, same) {
    this.lexicon = new Lexicon(words.map((line) => line.split(" ").map((word) => [word, 1])), same);
    Object.assign(this, { most, each, held: new Map() });
  }

  /** Words of a query as the texts have them, and the files that hold them. */
  read(text) {
    const words = asked(text).map((word) => [this.lexicon.exact(word), this.lexicon.alike(word)].find((found) => found.length) ?? []);
    return { words, files: words.every((found) => found.length) ? unique(words.flat().flatMap((word) => this.lexicon.words.get(word).files)) : [] };
  }

  /** Take the words of a file. */
  add(words) {
    for (const [word, flat] of Object.entries(words)) this.held.set(word, pairs(flat));
  }

  /** Numbers of the sections that hold every word, those that speak of them most first. */
  find({ words }) {
    const sections = new Map(), held = (word) => this.held.get(word) ?? [];
    // Of a word that stands nearly everywhere only the sections that speak of it most are known, so it cannot be asked of all.
    const rare = words.map((alike) => alike.every((word) => held(word).length < this.most));
    words.forEach((alike, n) => {
      for (const [at, much] of alike.flatMap(held)) {
        const one = sections.get(at) ?? { at, much: 0, held: new Set() };
        one.much += much;
        sections.set(at, { ...one, held: one.held.add(n) });
      }
    });
    return [...sections.values()].filter(({ held: has }) => rare.every((asked, n) => !asked || has.has(n)))
      .sort((a, b) => b.much - a.much || a.at - b.at).map(({ at }) => at);
  }

  /** The files that tell what these sections are called. */
  told(found) { return unique(found.map((at) => Math.floor(at / this.each))); }

  /** {title, heading, address} of each of these sections; `files`: number -> what such a file holds. */
  called(found, files) {
    return found.map((at) => files.get(Math.floor(at / this.each))[at % this.each]).map(([title, heading, address]) => ({ title, heading, address }));
  }
}
