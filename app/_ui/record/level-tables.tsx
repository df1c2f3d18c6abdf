import {
  type Forecaster,
  fewestOutcomes,
  forecasters,
  type Held,
  type LevelGroup,
  type LevelScore,
  type TrackRecord,
} from "../../../lib/schema/track-record.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { measureNames } from "../compare/compare-words.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { type RecordView, type Split, splits, trackRecordAddress, trackRecordFileAddress } from "./address.ts";
import {
  errorFigure,
  forecasterName,
  heldFigure,
  heldInterval,
  pinballFigure,
  splitNames,
  tooFewNote,
} from "./record-words.ts";

type Levels = TrackRecord["levels"][number];

/** Later readings against the ranges told for them, beside simpler forecasts; then apart by what the address asks for. */
export function LevelsSheet(props: {
  readonly f: Formats;
  readonly record: TrackRecord;
  readonly of: Levels;
  readonly view: RecordView;
}) {
  const { f, record, of, view } = props;
  const early = of.repairedEarly;
  return (
    <Sheet
      title="Later readings against what was told"
      note={`${measureNames[of.measure]}; each later test of a cylinder against the range told for it. A range is right when it holds as often as it says; small: 95 % interval`}
      controls={<CsvLink href={trackRecordFileAddress("readings")} of="every forecast and the reading that came" />}
      long
    >
      <nav className="segments no-print record-choice" aria-label="Kind of test">
        {record.levels.map(({ measure }) => (
          <AppLink
            key={measure}
            variant="bare"
            href={trackRecordAddress({ ...view, measure })}
            scroll={false}
            {...(measure === of.measure ? { "aria-current": "true" as const } : {})}
          >
            {measureNames[measure]}
          </AppLink>
        ))}
      </nav>
      <ScrollBox name="Ranges by forecast">
        <table className="data-table record-table">
          <caption className="visually-hidden">How often ranges held, by forecast</caption>
          <Head first="Forecast" of={of} f={f} />
          <tbody>
            {forecasters.map((forecaster) => (
              <ScoreRow key={forecaster} f={f} of={of} forecaster={forecaster} score={of.overall[forecaster]} />
            ))}
          </tbody>
        </table>
      </ScrollBox>
      {early.of > 0 && (
        <p className="record-note">
          Repaired before any limit was met: such a cylinder never shows when it would have. Its last test before the
          repair lay in the 80 % range told for it in {f.number(early.held)} of {f.number(early.of)}.
        </p>
      )}
      <nav className="segments no-print record-choice" aria-label="Told apart by">
        {splits.map((by) => (
          <AppLink
            key={by}
            variant="bare"
            href={trackRecordAddress({ ...view, by })}
            scroll={false}
            {...(by === view.by ? { "aria-current": "true" as const } : {})}
          >
            {splitNames[by]}
          </AppLink>
        ))}
      </nav>
      <ScrollBox name={`Ranges by ${splitNames[view.by].toLowerCase()}`}>
        <table className="data-table record-table">
          <caption className="visually-hidden">How often ranges held, by {splitNames[view.by].toLowerCase()}</caption>
          <Head first={splitNames[view.by]} of={of} f={f} beside />
          <tbody>
            {groupsBy(of, view.by).map((group) => (
              <GroupRow key={group.key ?? ""} f={f} of={of} group={group} by={view.by} />
            ))}
          </tbody>
        </table>
      </ScrollBox>
      <p className="record-note second">
        {tooFewNote} Readings of one test err together and count as one outcome. {f.number(record.doubtedReadings)}{" "}
        later readings are doubted themselves and judge nothing.{" "}
        <a href={trackRecordFileAddress("scores")} download className="no-print">
          All these figures as CSV
        </a>
      </p>
    </Sheet>
  );
}

const groupsBy = (of: Levels, by: Split): readonly LevelGroup[] =>
  ({ ahead: of.byAhead, model: of.byModel, tester: of.byTester, depot: of.byDepot })[by];

function Head(props: { readonly first: string; readonly of: Levels; readonly f: Formats; readonly beside?: boolean }) {
  const { first, of, f, beside = false } = props;
  return (
    <thead>
      <tr>
        <th scope="col">{first}</th>
        <th scope="col" className="number">
          Tests
        </th>
        <th scope="col" className="number">
          Readings
        </th>
        {(["50", "80", "90"] as const).map((range) => (
          <th key={range} scope="col" className="number">
            {range} % held
          </th>
        ))}
        <th scope="col" className="number">
          Median error
        </th>
        {beside && (
          <th scope="col" className="number">
            Straight line’s
          </th>
        )}
        {beside && (
          <th scope="col" className="number">
            Last time’s
          </th>
        )}
        {!beside && (
          <th scope="col" className="number">
            Pinball, {of.unit === "%" ? "points" : f.levelUnit("kPa")}
          </th>
        )}
      </tr>
    </thead>
  );
}

/** A range's share and its interval, or a count. */
function HeldCell({ f, held }: { readonly f: Formats; readonly held: Held | undefined }) {
  if (held === undefined) return <td className="number">–</td>;
  const interval = heldInterval(f, held);
  return (
    <td className="number unbroken">
      {heldFigure(f, held)}
      {interval !== "" && <span className="record-interval">{interval}</span>}
    </td>
  );
}

function ScoreRow(props: {
  readonly f: Formats;
  readonly of: Levels;
  readonly forecaster: Forecaster;
  readonly score: LevelScore | null;
}) {
  const { f, of, forecaster, score } = props;
  const name = forecasterName(forecaster);
  if (score === null) {
    return (
      <tr>
        <th scope="row">{name}</th>
        <td colSpan={7} className="second">
          tells no level, only when a repair is due
        </td>
      </tr>
    );
  }
  return (
    <tr data-own={forecaster === "borecast"}>
      <th scope="row">{name}</th>
      <td className="number">{f.number(score.outcomes)}</td>
      <td className="number">{f.number(score.readings)}</td>
      {(["50", "80", "90"] as const).map((range) => (
        <HeldCell key={range} f={f} held={score.coverage?.[range]} />
      ))}
      <td className="number unbroken">{errorFigure(f, score.medianError, of.unit)}</td>
      <td className="number">{pinballFigure(f, score, of.unit)}</td>
    </tr>
  );
}

function GroupRow(props: { readonly f: Formats; readonly of: Levels; readonly group: LevelGroup; readonly by: Split }) {
  const { f, of, group, by } = props;
  const own = group.scores.borecast;
  if (own === null) return null;
  const errorOf = (forecaster: Forecaster) => errorFigure(f, group.scores[forecaster]?.medianError ?? null, of.unit);
  const file = trackRecordFileAddress("readings", { measure: of.measure, by, key: group.key });
  return (
    <tr data-few={own.outcomes < fewestOutcomes}>
      <th scope="row">
        <GroupName by={by} group={group} />
      </th>
      <td className="number">{f.number(own.outcomes)}</td>
      <td className="number">
        <a href={file} download className="record-cases">
          {f.number(own.readings)}
          <span className="visually-hidden"> readings of {group.name}, as CSV</span>
        </a>
      </td>
      {(["50", "80", "90"] as const).map((range) => (
        <HeldCell key={range} f={f} held={own.coverage?.[range]} />
      ))}
      <td className="number unbroken">{errorOf("borecast")}</td>
      <td className="number unbroken">{errorOf("straight-line")}</td>
      <td className="number unbroken">{errorOf("last-time")}</td>
    </tr>
  );
}

function GroupName({ by, group }: { readonly by: Split; readonly group: LevelGroup }) {
  if (group.key === null || by === "ahead" || by === "tester") return group.name;
  return <AppLink href={`/${by}s/${encodeURIComponent(group.key)}`}>{group.name}</AppLink>;
}
