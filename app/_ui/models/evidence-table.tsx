import { evidence, evidenceGroups } from "../../../lib/cause/evidence.ts";
import type { EvidenceRow } from "../../../lib/cause/evidence-row.ts";
import { evidenceTitle } from "../../../lib/cause/evidence-titles.ts";
import { type CauseTable, startingLikelihoods, startingShares } from "../../../lib/cause/table.ts";
import { causeLabel } from "../../../lib/cause/words.ts";
import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import type { EvidenceId } from "../../../lib/schema/evidence-ids.ts";
import { type Cause, causes } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { Sheet } from "../sheet.tsx";
import { tableRoles } from "../table-roles.ts";
import { ScrollBox } from "../unit/scroll-box.tsx";

const markWords = {
  S: "from a published manual",
  P: "common practice, no source",
  J: "judgement",
  C: "computed",
} as const satisfies Record<EvidenceRow["mark"], string>;

interface Shown {
  readonly model: EngineModel;
  readonly table: CauseTable;
  readonly f: Formats;
}

/** The evidence table in force for a model, by subject: how often each finding is seen under each cause, and why. */
export function EvidenceTable(props: Shown) {
  return evidenceGroups.map(({ title, ids }) => (
    <Sheet key={title} title={title} long>
      <ScrollBox name={`Findings: ${title}`}>
        <table {...tableRoles.table} className="data-table evidence-table stacked-table">
          <caption className="visually-hidden">{title}: likelihood of each finding under each cause, per cent</caption>
          <thead {...tableRoles.rows}>
            <tr {...tableRoles.row}>
              <th {...tableRoles.column} scope="col">
                Finding, and why
              </th>
              <CauseHeads />
            </tr>
          </thead>
          <tbody {...tableRoles.rows}>
            {ids.map((id) => (
              <Row key={id} id={id} {...props} />
            ))}
          </tbody>
        </table>
      </ScrollBox>
    </Sheet>
  ));
}

/** The shares of the causes before anything is seen: the model's own, or the table's, as strip-downs have sharpened them. */
export function SharesTable({ model, table, f }: Shown) {
  const own = model.causeShares;
  const start = startingShares(model);
  return (
    <Sheet title="Before anything is seen" long>
      <ScrollBox name="Shares of the causes">
        <table {...tableRoles.table} className="data-table evidence-table stacked-table">
          <caption className="visually-hidden">Share of each cause before anything is seen, per cent</caption>
          <thead {...tableRoles.rows}>
            <tr {...tableRoles.row}>
              <th {...tableRoles.column} scope="col">
                Of cylinders in which something is at work
              </th>
              <CauseHeads />
            </tr>
          </thead>
          <tbody {...tableRoles.rows}>
            <tr {...tableRoles.row}>
              <th {...tableRoles.head} scope="row">
                At work
                <span className="second small">
                  {own === undefined
                    ? "Rings and bores lead because every engine wears them, exhaust valves come next because they run hottest (judgement)."
                    : "Causes without a share of their own share what is left as the table has it."}
                </span>
                {own !== undefined && <span className="small evidence-own">This model: {own.reason}</span>}
              </th>
              {causes.map((cause, i) => (
                <Value
                  key={cause}
                  cause={cause}
                  now={table.causePriors[i] as number}
                  start={start[i] as number}
                  isOwn={own?.shares[cause] !== undefined}
                  f={f}
                />
              ))}
            </tr>
          </tbody>
        </table>
      </ScrollBox>
    </Sheet>
  );
}

const CauseHeads = () =>
  causes.map((cause) => (
    <th key={cause} {...tableRoles.column} scope="col" className="number">
      {causeLabel(cause)}
    </th>
  ));

/** A probability in force, and where it began if strip-downs moved it. */
function Value(props: {
  readonly cause: Cause;
  readonly now: number;
  readonly start: number;
  readonly isOwn: boolean;
  readonly f: Formats;
}) {
  const { cause, now, start, isOwn, f } = props;
  return (
    <td {...tableRoles.cell} data-label={causeLabel(cause)} className="number">
      {isOwn ? <strong>{f.percent(100 * now)}</strong> : f.percent(100 * now)}
      {isOwn && <span className="second small">own</span>}
      {Math.abs(now - start) >= 0.005 && <span className="second small">start {f.percent(100 * start)}</span>}
    </td>
  );
}

function Row({ id, model, table, f }: Shown & { readonly id: EvidenceId }) {
  const { reason, mark, cautions } = evidence[id];
  const own = model.evidence?.[id];
  const start = startingLikelihoods(id, model);
  return (
    <tr {...tableRoles.row}>
      <th {...tableRoles.head} scope="row">
        {sentenceWords(evidenceTitle(id))}
        <span className="second small">
          {sentenceWords(reason)} ({markWords[mark]}).
          {cautions.map((caution) => ` ${sentenceWords(caution)}.`)}
        </span>
        {own !== undefined && <span className="small evidence-own">This model: {own.reason}</span>}
      </th>
      {causes.map((cause, i) => (
        <Value
          key={cause}
          cause={cause}
          now={table.rows[id].likelihoods[i] as number}
          start={start[i] as number}
          isOwn={own?.likelihoods[cause] !== undefined}
          f={f}
        />
      ))}
    </tr>
  );
}
