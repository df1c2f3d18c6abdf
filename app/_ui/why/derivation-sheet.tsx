import type { ReactNode } from "react";
import type { Explained } from "@/lib/explain/types.ts";
import type { EngineModel } from "@/lib/schema/engine-model.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { modelAddress } from "../models/address.ts";
import { Sheet } from "../sheet.tsx";
import {
  datesWords,
  dateWords,
  isFaultsRate,
  latestWords,
  levelRangeWords,
  levelWords,
  spreadWords,
  straightUse,
  windowWords,
} from "./why-words.ts";

/** The figures from the readings to the date, in order, each with where it comes from. */
export function DerivationSheet(props: { readonly e: Explained; readonly model: EngineModel; readonly f: Formats }) {
  const { e, model, f } = props;
  const { told, meterUnit, sisters, errors, use } = e;
  const rate = (perThousand: number) => f.rate(perThousand, told.unit, meterUnit);
  const straight = straightUse(e);
  const likely = told.crossing.meter.p50;
  return (
    <Sheet title="From the readings to the date" note="each figure opens where it comes from" long>
      <ul className="why-steps">
        <Step name="Limit" figure={levelWords(e, told.limit, f)}>
          The limit in force for this cylinder, from{" "}
          <AppLink href={modelAddress(model.id)}>the engine model {model.name ?? model.id}</AppLink>.
          {e.measure === "leak-down" &&
            model.leakDown?.valves !== undefined &&
            " Where a valve is probably at fault and was heard, the model’s tighter limits for valves hold."}
        </Step>
        <Step name="Level now" figure={levelWords(e, told.level, f)}>
          What the cylinder would read today without error{levelRangeWords(e, f)}, from {f.number(e.usableTests)} usable{" "}
          {e.usableTests === 1 ? "test" : "tests"} since its rings and bores were last renewed{latestWords(e, f)}. A
          whole test is off by about {spreadWords(e, errors.test, f)}, a single reading at this level by about{" "}
          {spreadWords(e, errors.reading, f)} more (standard deviations, from the scatter of this engine model’s tests),
          so no reading is taken as it stands. Here the engine model’s own tests are asked, all of them, about their
          courses; <AppLink href="/compare/testers">Testers</AppLink> tells what tests of one engine at one time repeat
          to, over all models.
        </Step>
        {told.rate !== null && (
          <Step name="Rate now" figure={rate(told.rate.perThousand)}>
            8 in 10 between {rate(told.rate.p10)} and {rate(told.rate.p90)}. Engines of the model change by{" "}
            {rate(sisters.ratePerThousand)} in the middle of their tests, and differ by about{" "}
            {rate(sisters.rateSdPerThousand)} (one standard deviation);{" "}
            {sisters.engines === 0
              ? "these are starting values, for no sister engine was tested"
              : `so say ${f.number(sisters.tests)} tests of this and ${f.number(sisters.engines)} other ${sisters.engines === 1 ? "engine" : "engines"}`}
            . {f.probability(e.ownShare)} of what is said of{" "}
            {isFaultsRate(e) ? "the wear beside the fault" : "the rate"} is from this engine’s own tests.
          </Step>
        )}
        <Step name="Use" figure={use.perDay === 0 ? "none" : `${f.weeklyUse(use.perDay, meterUnit)} a week`}>
          {use.perDay === 0
            ? "The unit is out of service, so no use is foreseen and no date comes nearer."
            : use.intervals === 0
              ? "As units of its kind, for its own meter was not read twice a week apart."
              : `From ${f.number(use.intervals)} ${use.intervals === 1 ? "interval" : "intervals"} between readings of its own meter, later ones counting more, and from units of its kind.`}
        </Step>
        {likely !== null && told.crossing.status !== "crossed" && (
          <Step name="Way to the limit" figure={f.forecastMeter(likely - e.meterNow, meterUnit)}>
            {straight !== null &&
              `From ${levelWords(e, told.level, f)} to ${levelWords(e, told.limit, f)} a straight line at the rate now would take ${f.forecastMeter(straight, meterUnit)}. `}
            The figure beside counts every way that the wear may go on, each with its share; the limit is likely met at{" "}
            {f.forecastMeter(likely, meterUnit)} on the meter, which stands at {f.meter(e.meterNow, meterUnit)} now.
          </Step>
        )}
        <Step name="Likely date" figure={dateWords(told.crossing, "p50", f)}>
          {datesWords(e, f)} <AppLink href="/record">How past ranges held</AppLink>.
        </Step>
        <Step
          name="The unit’s window"
          figure={e.window.status === "crossed" ? "due now" : dateWords(e.window, "p50", f)}
        >
          {windowWords(e, f)} It is the first crossing of any cylinder whose growth calls for this class of repair, so
          it may come before the cylinder’s own date; or after it, where the class is in doubt: for this cylinder the
          chance of the class is {f.probability(e.classProbability)}, and it adds most to the window.
        </Step>
      </ul>
    </Sheet>
  );
}

function Step(props: { readonly name: string; readonly figure: string; readonly children: ReactNode }) {
  return (
    <li>
      <details>
        <summary>
          <span>{props.name}</span> <strong>{props.figure}</strong>
        </summary>
        <p>{props.children}</p>
      </details>
    </li>
  );
}
