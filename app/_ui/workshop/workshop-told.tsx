import type { Workshop } from "../../../lib/schema/workshop.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { workshopLines } from "./workshop-words.ts";

/** Prices and workshops in force, for somebody who only reads them. */
export function WorkshopTold({ f, workshop }: { readonly f: Formats; readonly workshop: Workshop }) {
  return (
    <dl className="settings-told workshop-told">
      {workshopLines(f, workshop).map(([what, says]) => (
        <div key={`${what} ${says}`}>
          <dt>{what}</dt>
          <dd>{says}</dd>
        </div>
      ))}
    </dl>
  );
}
