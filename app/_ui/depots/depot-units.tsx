import type { Band } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { fleetAddress, plainFleetView } from "../fleet/address.ts";
import { roundAddress } from "../round/address.ts";

const order = ["past-limit", "plan", "watch", "sound"] as const satisfies readonly Band[];

/** The units of a depot, all and by band; each count leads to them in the Fleet. */
export function DepotUnits(props: {
  readonly f: Formats;
  readonly depot: string;
  readonly units: ReadonlyMap<Band | null, number>;
}) {
  const { f, depot, units } = props;
  const all = [...units.values()].reduce((sum, count) => sum + count, 0);
  if (all === 0) return <p className="second">No unit is there now.</p>;
  const unjudged = units.get(null) ?? 0;
  return (
    <ul className="depot-units">
      <li>
        <AppLink href={fleetAddress(plainFleetView, { depot })}>
          {f.number(all)} {all === 1 ? "unit" : "units"}
        </AppLink>
      </li>
      {order
        .map((band) => [band, units.get(band) ?? 0] as const)
        .filter(([, count]) => count > 0)
        .map(([band, count]) => (
          <li key={band}>
            <AppLink variant="bare" href={fleetAddress(plainFleetView, { depot, band })}>
              {f.number(count)} <BandMark band={band} />
            </AppLink>
          </li>
        ))}
      <li>
        <AppLink href={roundAddress({ depot })}>Test round</AppLink>
      </li>
      {unjudged > 0 && <li className="second">{f.number(unjudged)} not judged yet</li>}
    </ul>
  );
}
