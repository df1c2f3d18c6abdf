import type { FleetRow } from "../../lib/schema/report.ts";
import type { Band } from "../../lib/schema/words.ts";
import { listWords, sentenceWords } from "../../lib/wording.ts";
import { bandWords } from "./band-mark.tsx";
import { cylinderRows } from "./cylinder-rows.ts";

const pitch = 12;
const rowPitch = 13;

/** The engine seen from above: a 9 px circle for each cylinder, as they stand, drawn by its band. */
export function Bores({
  layout,
  bands,
}: {
  readonly layout: FleetRow["layout"];
  readonly bands: readonly (Band | null)[];
}) {
  const rows = cylinderRows(layout, bands.length);
  // The sides of an opposed engine stand half a bore apart, since two rods cannot share one place on the crank.
  const shift = layout === "opposed" ? pitch / 2 : 0;
  const longest = Math.max(...rows.map((row) => row.length));
  const width = longest * pitch + shift * (rows.length - 1);
  return (
    <svg
      className="bores"
      width={width}
      height={rows.length * rowPitch}
      viewBox={`0 0 ${width} ${rows.length * rowPitch}`}
      role="img"
      aria-label={boresInWords(bands)}
    >
      {rows.map((row, rowIndex) =>
        row.map((cylinder, place) => {
          const key = bands[cylinder - 1] ?? "never-tested";
          const x = pitch / 2 + place * pitch + rowIndex * shift;
          return (
            <use key={cylinder} href={`#bore-${key}`} data-band={key} x={x} y={rowPitch / 2 + rowIndex * rowPitch} />
          );
        }),
      )}
    </svg>
  );
}

/** "Cylinder 3 plan; cylinders 1 and 2 watch; the others sound." */
export function boresInWords(bands: readonly (Band | null)[]): string {
  if (bands.length === 0) return "";
  if (new Set(bands).size === 1) {
    const word = bandWords[bands[0] ?? "never-tested"];
    return bands.length === 1 ? `One cylinder, ${word}.` : `All ${bands.length} cylinders ${word}.`;
  }
  const told = (["past-limit", "plan", "watch", null, "sound"] as const).flatMap((band) => {
    const found = bands.flatMap((of, index) => (of === band ? [String(index + 1)] : []));
    if (found.length === 0) return [];
    if (band === "sound") return [`the other${found.length === 1 ? "" : "s"} sound`];
    return [`cylinder${found.length === 1 ? "" : "s"} ${listWords(found)} ${bandWords[band ?? "never-tested"]}`];
  });
  return `${sentenceWords(told.join("; "))}.`;
}
