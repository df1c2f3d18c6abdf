import { type Call, foundClasses, isRightCall } from "../../../lib/cause/calls.ts";
import { causeLabel } from "../../../lib/cause/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords } from "../../../lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { tableRoles } from "../table-roles.ts";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { unitAddress } from "../unit-address.ts";
import { calledRows, classWords, countOf, listedWords, outcomeWords, rightWords } from "./call-words.ts";

/** Class called beside class found: how many of each. */
export function CallsMatrix(props: { readonly title: string; readonly calls: readonly Call[]; readonly f: Formats }) {
  const { title, calls, f } = props;
  return (
    <Sheet title={title} note={rightWords(f, calls)}>
      <ScrollBox name={`Calls: ${title}`}>
        <table className="data-table calls-table">
          <caption className="visually-hidden">{title}: class called by class found</caption>
          <thead>
            <tr>
              <th scope="col">Called</th>
              {foundClasses.map((found) => (
                <th key={found} scope="col" className="number">
                  {found === "sound" ? "opened, sound" : `found ${classWords[found]}`}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {calledRows(calls).map((called) => (
              <tr key={called}>
                <th scope="row">{called === null ? "never tested" : classWords[called]}</th>
                {foundClasses.map((found) => {
                  const count = countOf(calls, called, found);
                  const isRight = called !== null && isRightCall(called, found) && count > 0;
                  return (
                    <td key={found} className="number">
                      {isRight ? <strong>{f.number(count)}</strong> : f.number(count)}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
    </Sheet>
  );
}

/** The latest cases are shown; all of them are in the file. */
const mostListed = 200;

/** The cases one by one. `calls`: the latest first. */
export function CallsList(props: { readonly calls: readonly Call[]; readonly csv: string; readonly f: Formats }) {
  const { calls, csv, f } = props;
  const listed = calls.slice(0, mostListed);
  const listedNote = listedWords(f, listed.length, calls.length);
  return (
    <Sheet
      title="Case by case"
      note="what the tests and checks before the day of the repair said, and what the strip-down showed"
      controls={<CsvLink href={csv} of="all cases" />}
      long
    >
      <ScrollBox name="Cylinders that were opened">
        <table {...tableRoles.table} className="data-table stacked-table">
          <caption className="visually-hidden">Cylinders that were opened, latest first</caption>
          <thead {...tableRoles.rows}>
            <tr {...tableRoles.row}>
              {[headings.opened, headings.unit].map((heading) => (
                <th key={heading} {...tableRoles.column} scope="col">
                  {heading}
                </th>
              ))}
              <th {...tableRoles.column} scope="col" className="number">
                {headings.cylinder}
              </th>
              {[headings.called, headings.found, headings.outcome].map((heading) => (
                <th key={heading} {...tableRoles.column} scope="col">
                  {heading}
                </th>
              ))}
            </tr>
          </thead>
          <tbody {...tableRoles.rows}>
            {listed.map((call) => (
              <CallRow key={`${call.case.engine} ${call.case.date} ${call.case.cylinder}`} call={call} f={f} />
            ))}
          </tbody>
        </table>
      </ScrollBox>
      {listedNote !== "" && <p className="second">{listedNote}</p>}
    </Sheet>
  );
}

const headings = {
  opened: "Opened",
  unit: "Unit",
  cylinder: "Cylinder",
  called: "Called",
  found: "Found",
  outcome: "Outcome",
} as const;

function CallRow({ call, f }: { readonly call: Call; readonly f: Formats }) {
  const { case: of, called, issued, right } = call;
  return (
    <tr {...tableRoles.row}>
      <td {...tableRoles.cell} data-label={headings.opened} className="unbroken">
        {f.date(of.date)}
      </td>
      <td {...tableRoles.cell} data-label={headings.unit} className="unbroken">
        <AppLink href={unitAddress(of.unit)}>{of.unit}</AppLink>
      </td>
      <td {...tableRoles.cell} data-label={headings.cylinder} className="number">
        {of.cylinder}
      </td>
      <td {...tableRoles.cell} data-label={headings.called} className="calls-words">
        {called === null
          ? "nothing"
          : `${classWords[called.class]} ${f.probability(called.probability)}; likeliest single cause: ${causeLabel(called.cause).toLowerCase()} (${issued === null ? "by today’s table" : `issued ${f.date(issued)}`})`}
      </td>
      <td {...tableRoles.cell} data-label={headings.found} className="calls-words">
        {of.found.length === 0 ? "sound" : listWords(of.found.map((cause) => causeLabel(cause).toLowerCase()))}
      </td>
      <td {...tableRoles.cell} data-label={headings.outcome}>
        {right === false ? <strong>{outcomeWords(call)}</strong> : outcomeWords(call)}
      </td>
    </tr>
  );
}
