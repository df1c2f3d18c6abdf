import { AppLink } from "../app-link.client.tsx";
import { type RecordKind, recordAddress, recordKinds, recordTitles } from "./address.ts";

/** What can be recorded of a unit, a link to each form. `here`: the form that is shown. */
export function RecordNav({ unit, here = null }: { readonly unit: string; readonly here?: RecordKind | null }) {
  return (
    <nav aria-label={`Record of ${unit}`} className="record-nav no-print">
      <span className="second">Record:</span>
      {recordKinds.map((kind) => (
        <AppLink key={kind} href={recordAddress(unit, kind)} {...(kind === here ? { "aria-current": "page" } : {})}>
          {recordTitles[kind]}
        </AppLink>
      ))}
    </nav>
  );
}
