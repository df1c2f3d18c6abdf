import { causeLabel } from "../../../lib/cause/words.ts";
import type { UnitReport } from "../../../lib/schema/report.ts";
import { causes } from "../../../lib/schema/words.ts";
import { AppLink } from "../app-link.client.tsx";
import { recordAddress } from "../recording/address.ts";
import { WriteField } from "./paper-parts.tsx";

const findable = causes.filter((cause) => cause !== "test-set-up");

/** The back of a job card, to fill in by hand: what the strip-down shows in each cylinder, and what the work took. */
export function StripDownCard({ report }: { readonly report: UnitReport }) {
  const { unit, cylinders, meter, engineSerial } = report.assessment;
  return (
    <article className="paper-sheet plan-paper" aria-label={`Strip-down record of ${unit}`}>
      <header className="paper-head">
        <p className="unit-title">
          <span className="unit-number">{unit}</span>
          <strong>What the strip-down showed</strong>
          <span className="second">{engineSerial === null ? "engine without number" : `engine ${engineSerial}`}</span>
        </p>
        <p className="paper-fields">
          <WriteField name="Day" />
          <WriteField name={`Meter, ${meter.unit}`} />
          <WriteField name="Done by" />
        </p>
      </header>
      <p>
        Ring what was found, also “sound”: a cylinder that was opened for nothing says as much as a fault. Severity 1
        slight, 2 worn to its limit, 3 failed. Measure the ring gap, bore and flatness as the maker’s manual asks.
      </p>
      <table className="paper-table plan-paper-findings">
        <thead>
          <tr>
            <th scope="col">Cyl</th>
            <th scope="col">Found: ring it</th>
            <th scope="col">Severity</th>
            <th scope="col">Measured: gap, bore, flatness, mm</th>
            <th scope="col">Could have run on</th>
            <th scope="col">Photo</th>
          </tr>
        </thead>
        <tbody>
          {cylinders.map(({ cylinder }) => (
            <tr key={cylinder}>
              <th scope="row">{cylinder}</th>
              <td className="plan-paper-found">{[...findable.map(causeLabel), "sound"].join(" · ")}</td>
              <td>1 · 2 · 3</td>
              <td className="paper-write" />
              <td>yes · no</td>
              <td />
            </tr>
          ))}
        </tbody>
      </table>
      <p className="paper-fields">
        <WriteField name="Labour, hours" />
        <WriteField name="Parts, cost" />
        <WriteField name="Machining, cost" />
        <WriteField name="Off the road, days" />
      </p>
      <p className="paper-fields">
        <WriteField name="Renewed in the top end" />
        <WriteField name="Renewed in the bottom end" />
        <WriteField name="Engine out, engine in" />
      </p>
      <div className="paper-notes">
        <h2>Notes</h2>
        <div className="write-lines" aria-hidden="true" />
      </div>
      <p>
        <AppLink href={recordAddress(unit, "repair")}>Record the repair of {unit}</AppLink>: the booking closes, and
        what it took stands beside its forecast. Its form takes what was found in each cylinder, hours, days off, photos
        and one cost: labour, parts and machining together, without what the days off cost. Severity, measures and
        whether it could have run on go among its remarks.
      </p>
      <p className="paper-fields">
        <WriteField name="Checked by, date" />
        <WriteField name="Released by whoever may, date" />
      </p>
    </article>
  );
}
