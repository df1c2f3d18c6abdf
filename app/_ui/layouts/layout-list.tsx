import type { allLayouts, LayoutUse } from "../../../db/layouts.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { FactList } from "../fact-list.tsx";
import { dayWords } from "../when.ts";
import { layoutAddress, layoutEditAddress } from "./address.ts";
import { usesWords } from "./kept-words.ts";
import { layoutOf } from "./layout-versions.ts";
import { readsWords, recognisedWords } from "./layout-words.ts";

export type LayoutListed = Awaited<ReturnType<typeof allLayouts>>[number];

/** Kept layouts one below the other: what they recognise and read, who kept them, and how much they are used. */
export function LayoutList(props: {
  readonly rows: readonly LayoutListed[];
  readonly uses: ReadonlyMap<string, readonly LayoutUse[]>;
  readonly timeZone: string;
  readonly f: Formats;
}) {
  const { rows, uses, timeZone, f } = props;
  const day = (at: string) => dayWords(f, timeZone, at);
  return (
    <ul className="thing-list">
      {rows.map((row) => (
        <li key={row.id} className="keep-together">
          <div className="thing-says">
            <h3>
              <AppLink href={layoutAddress(row.name)}>{row.name}</AppLink>
            </h3>
            <p className="second">
              {row.withdrawn && row.withdrawnBy !== null && row.withdrawnAt !== null
                ? `Withdrawn by ${row.withdrawnBy}, ${day(row.withdrawnAt)}.`
                : `Version ${f.number(row.versions)}, kept by ${row.by}, ${day(row.at)}.`}
            </p>
            <p>{usesWords(uses.get(row.name) ?? [], day)}</p>
            {!row.withdrawn && layoutOf(row) !== null && (
              <p className="no-print">
                <AppLink href={layoutEditAddress(row.name)}>Change {row.name}</AppLink>
              </p>
            )}
          </div>
          <Told row={row} />
        </li>
      ))}
    </ul>
  );
}

function Told({ row }: { readonly row: LayoutListed }) {
  const layout = layoutOf(row);
  if (layout === null) return <p>It was kept by another version of Borecast, and this one cannot read it.</p>;
  return (
    <FactList
      facts={[
        ["Recognised by", recognisedWords(layout)],
        ["Reads", readsWords(layout)],
      ]}
    />
  );
}
