import type { Band } from "../../lib/schema/words.ts";

export const bandWords = {
  sound: "sound",
  watch: "watch",
  plan: "plan",
  "past-limit": "past limit",
  "never-tested": "never tested",
} as const satisfies Record<Band | "never-tested", string>;

function BandGlyph({ band }: { band: Band | null }) {
  return (
    <svg
      className="band-glyph"
      data-band={band ?? "never-tested"}
      width="14"
      height="14"
      viewBox="0 0 14 14"
      aria-hidden="true"
    >
      <use href={`#mark-${band ?? "never-tested"}`} />
    </svg>
  );
}

/** A band by mark, word and colour together; null: never tested, or `tested` but not since its last repair. */
export function BandMark({ band, tested = false }: { readonly band: Band | null; readonly tested?: boolean }) {
  const key = band ?? "never-tested";
  return (
    <span className="band" data-band={key}>
      <BandGlyph band={band} />
      {band === null && tested ? "not judged yet" : bandWords[key]}
    </span>
  );
}
