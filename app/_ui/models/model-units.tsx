import type { ModelUnits } from "../../../db/engine-models.ts";
import { bands, type MeterUnit } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { unitsOfModelAddress } from "./address.ts";

const order = [...bands].reverse();

/** How many units a model has, which leads to them in the Fleet, and how many stand in each band. */
export function ModelUnitCounts(props: {
  readonly model: string;
  readonly units: readonly ModelUnits[];
  readonly f: Formats;
}) {
  const { model, units, f } = props;
  const total = totalUnits(units);
  if (total === 0) return <p className="second">No unit has it.</p>;
  const byBand = [...order, null].map((band) => ({
    band,
    count: totalUnits(units.filter((one) => one.band === band)),
  }));
  return (
    <ul className="model-units">
      <li>
        <AppLink href={unitsOfModelAddress(model)}>
          {f.number(total)} {total === 1 ? "unit" : "units"}
        </AppLink>
      </li>
      {byBand
        .filter(({ count }) => count > 0)
        .map(({ band, count }) => (
          <li key={band}>
            {f.number(count)} <BandMark band={band} tested />
          </li>
        ))}
    </ul>
  );
}

export const totalUnits = (units: readonly ModelUnits[]): number => units.reduce((sum, one) => sum + one.units, 0);

/** The meter unit that all units of a model have; null: they differ, or there is none. */
export function commonMeterUnit(units: readonly ModelUnits[]): MeterUnit | null {
  const [first, ...others] = new Set(units.map(({ meterUnit }) => meterUnit));
  return first === undefined || others.length > 0 ? null : first;
}
