import { causeLabel } from "@/lib/cause/words.ts";
import type { Explained } from "@/lib/explain/types.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { modelEvidenceAddress } from "../models/address.ts";
import { Sheet } from "../sheet.tsx";
import { tableRoles } from "../table-roles.ts";
import { ScrollBox } from "../unit/scroll-box.tsx";

/** From the usual shares of the likeliest causes over what was seen to their chances now. */
export function CausesSheet(props: { readonly e: Explained; readonly model: string; readonly f: Formats }) {
  const { e, model, f } = props;
  const { causes, findings, cylinder } = e.causes;
  const name = `From what was seen to the causes${e.cylinders === 1 ? "" : `, cylinder ${cylinder}`}`;
  return (
    <Sheet title={name} note="the likeliest causes; each finding multiplies their odds" id="causes" long>
      <ScrollBox name="What was seen, and its factors">
        <table {...tableRoles.table} className="data-table why-causes stacked-table">
          <caption className="visually-hidden">{name}</caption>
          <thead {...tableRoles.rows}>
            <tr {...tableRoles.row}>
              <th {...tableRoles.column} scope="col">
                Seen
              </th>
              {causes.map(({ cause }) => (
                <th {...tableRoles.column} key={cause} scope="col" className="number">
                  {causeLabel(cause)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody {...tableRoles.rows}>
            <Row
              name="Before anything is seen"
              causes={causes}
              cells={causes.map(({ before }) => f.probability(before))}
            />
            {findings.map(({ words, factors }) => (
              <Row
                key={words}
                name={f.words(words)}
                causes={causes}
                cells={factors.map((factor) => `× ${factorWords(f, factor)}`)}
              />
            ))}
            <Row name="Chance now" isTotal causes={causes} cells={causes.map(({ after }) => f.probability(after))} />
          </tbody>
        </table>
      </ScrollBox>
      <details className="unit-figures">
        <summary>How this is reckoned</summary>
        <p>
          Bayes’ rule: the odds of a cause against all others, times the factor of each finding. A factor is the
          likelihood of the finding where the cause is at work over that where it is not, by{" "}
          <AppLink href={modelEvidenceAddress(model)}>the evidence table of the engine model</AppLink>, raised to how
          plainly it was seen. Two causes at once are reckoned beside each cause alone, each takes its part of what both
          have, and a small part is kept for what no table knows: so the last row is near the product, not equal to it.
        </p>
      </details>
    </Sheet>
  );
}

function Row(props: {
  readonly name: string;
  readonly cells: readonly string[];
  readonly causes: Explained["causes"]["causes"];
  readonly isTotal?: boolean;
}) {
  const { name, cells, causes, isTotal } = props;
  return (
    <tr {...tableRoles.row} className={isTotal === true ? "total" : undefined}>
      <th {...tableRoles.head} scope="row">
        {name}
      </th>
      {causes.map(({ cause }, i) => (
        <td {...tableRoles.cell} key={cause} data-label={causeLabel(cause)} className="number">
          {cells[i]}
        </td>
      ))}
    </tr>
  );
}

/** Two figures that count: "3.2", "0.18", "41". */
const factorWords = (f: Formats, factor: number): string =>
  f.number(factor, factor >= 9.95 ? 0 : factor >= 0.995 ? 1 : factor >= 0.0995 ? 2 : 3);
