import { isAskedFor, searchable, searchWords } from "../../../db/searching.ts";
import { glossaryWords } from "../../../lib/glossary.ts";
import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import { layoutAddress } from "../layouts/address.ts";
import { modelAddress } from "../models/address.ts";
import { pagesToFind } from "../shell/places.ts";

/** One thing that the search found. */
export interface Found {
  readonly title: string;
  readonly detail: string;
  readonly href: string;
}

export interface FoundGroup {
  readonly title: string;
  readonly found: readonly Found[];
}

/** The entries whose text holds every word of the search, those whose title begins with it first. */
function matching<T>(
  entries: readonly T[],
  search: string,
  kind: string,
  textOf: (entry: T) => { title: string; rest: string },
): T[] {
  const begin = searchWords(search).join(" ");
  const ranked = entries.flatMap((entry) => {
    const { title, rest } = textOf(entry);
    if (!isAskedFor(`${title} ${rest}`, search, kind)) return [];
    const begins = searchable(title).startsWith(begin);
    return [{ entry, place: begins ? 0 : isAskedFor(title, search, kind) ? 1 : 2 }];
  });
  return ranked.toSorted((a, b) => a.place - b.place).map(({ entry }) => entry);
}

/** Pages of the app, by their titles and what they are looked up by; all of them where nothing is asked. */
export const foundPages = (search: string): Found[] =>
  matching(pagesToFind, search, "page", ({ title, says }) => ({ title, rest: says })).map(({ title, says, href }) => ({
    title,
    detail: says,
    href,
  }));

/** Engine models, by name and by id. */
export const foundModels = (
  models: readonly Pick<EngineModel, "id" | "name" | "retired">[],
  search: string,
  limit: number,
): Found[] =>
  matching(models, search, "model", ({ id, name }) => ({ title: name ?? id, rest: id }))
    .slice(0, limit)
    .map(({ id, name, retired }) => ({
      title: name ?? id,
      detail: retired === true ? `${id}, retired` : id,
      href: modelAddress(id),
    }));

/** Kept layouts, by name. */
export const foundLayouts = (names: readonly string[], search: string, limit: number): Found[] =>
  matching(names, search, "layout", (name) => ({ title: name, rest: "" }))
    .slice(0, limit)
    .map((name) => ({ title: name, detail: "how columns are read", href: layoutAddress(name) }));

/** Words of the trade, by the word and its meaning. */
export const foundWords = (search: string, limit: number): Found[] =>
  matching(glossaryWords, search, "word", ({ word, meaning, also = "" }) => ({
    title: word,
    rest: `${meaning} ${also}`,
  }))
    .slice(0, limit)
    .map(({ key, word, meaning }) => ({ title: word, detail: meaning, href: `/words#${key}` }));
