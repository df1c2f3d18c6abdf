import { appStore } from "../../../db/app-store.ts";
import { type ToldStanding, unitIssues } from "../../../db/changes.ts";
import { readSettings } from "../../../db/settings.ts";
import { changeCauses } from "../../../lib/changes/causes.ts";
import { changeFrame } from "../../../lib/changes/compare.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { dateIn } from "../../_jobs/as-of.ts";
import { BandMark } from "../band-mark.tsx";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { unitFilesAddress } from "../unit-address.ts";
import { viewerFormats } from "../viewer.ts";
import { likelyWords } from "../window-drawing.ts";
import { Why } from "./change-parts.tsx";

const issuesShown = 6;

/** What changed: the last assessments of a unit as they were issued, newest first, and why each differs from the one before. */
export async function UnitHistory({ unit }: { readonly unit: string }) {
  const store = await appStore();
  const [settings, issues, f] = await Promise.all([
    readSettings(store),
    // One more than is shown: the last of them has one to be compared with as well.
    unitIssues(store, unit, issuesShown + 1),
    viewerFormats(),
  ]);
  if (issues.length === 0) return null;
  return (
    <Sheet
      title="What changed"
      note="Forecasts as they were issued, newest first, and why each differs from the one before."
      controls={<CsvLink href={`${unitFilesAddress(unit)}/forecasts`} of={`all forecasts of ${unit}`} />}
    >
      <ScrollBox name="Forecasts as they were issued">
        <table className="data-table unit-table">
          <caption className="visually-hidden">Forecasts of {unit} as they were issued</caption>
          <thead>
            <tr>
              <th scope="col">Issued</th>
              <th scope="col">Band</th>
              <th scope="col">Repair likely</th>
              <th scope="col">Why</th>
            </tr>
          </thead>
          <tbody>
            {issues.slice(0, issuesShown).map((issue, i) => (
              <IssueRow
                key={issue.id}
                issue={issue}
                before={issues[i + 1]}
                issued={f.date(dateIn(settings.timeZone, new Date(issue.madeAt)))}
                horizonEnd={changeFrame(settings, issue.asOf).horizonEnd}
                f={f}
              />
            ))}
          </tbody>
        </table>
      </ScrollBox>
    </Sheet>
  );
}

function IssueRow(props: {
  readonly issue: ToldStanding;
  readonly before: ToldStanding | undefined;
  readonly issued: string;
  readonly horizonEnd: IsoDate;
  readonly f: Formats;
}) {
  const { issue, before, f } = props;
  const serials = [before, issue].map((one) => one?.basis?.engineSerial ?? null);
  const why = before === undefined ? ["first forecast"] : changeCauses(before, issue).map(({ words }) => words);
  return (
    <tr>
      <th scope="row" className="unit-row-name">
        {props.issued}
      </th>
      <td>
        <BandMark band={issue.band} tested={issue.lastTestDate !== null} />
      </td>
      <td>
        {likelyWords(issue, props.horizonEnd, f).map(({ part, when }) => (
          <div key={part ?? "none"}>
            {part !== null && <span className="second">{part} </span>}
            {when}
          </div>
        ))}
      </td>
      <td>
        <Why why={why.map((words, i) => (i === 0 ? sentenceWords(words) : words))} f={f.knowing(serials)} />
      </td>
    </tr>
  );
}
