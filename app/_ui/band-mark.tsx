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
      <BandShape band={band} />
    </svg>
  );
}

function BandShape({ band }: { band: Band | null }) {
  const ink = "currentColor";
  switch (band) {
    case "sound":
      return <circle cx="7" cy="7" r="5" fill="none" stroke={ink} strokeWidth="1.5" />;
    case "watch":
      return (
        <>
          <circle cx="7" cy="7" r="5.6" fill="none" stroke={ink} strokeWidth="1.6" />
          <circle cx="7" cy="7" r="2.5" fill={ink} />
        </>
      );
    case "plan":
      return (
        <>
          <path d="M1.5 1H12.5L7 10.2Z" fill={ink} />
          <path d="M1.5 12.6H12.5" stroke={ink} strokeWidth="1.8" />
        </>
      );
    case "past-limit":
      return <path d="M3 .5H11V5H3ZM3 9H11V13.5H3ZM0 6.1H14V7.9H0Z" fill={ink} />;
    case null:
      return <circle cx="7" cy="7" r="5.2" fill="none" stroke={ink} strokeWidth="1.5" strokeDasharray="2 2.1" />;
  }
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
