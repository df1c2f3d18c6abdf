import { changeCounts } from "../../../db/changes.ts";
import type { Store } from "../../../db/store.ts";
import { changeFrame } from "../../../lib/changes/compare.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Settings } from "../../../lib/schema/settings.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { sinceOf } from "./since.ts";

/**
 * "7 changed since 3 Aug", leading to what changed: an item for the list in the Fleet's row of counts, like those beside
 * it. Since this viewer's last visit, else the last 30 days.
 *
 * `settings`, `asOf`: those that the page is told for, which it has read already. `now`: the time of the request.
 * `f`: the viewer's formats.
 */
export async function ChangedCount(props: {
  readonly store: Store;
  readonly settings: Settings;
  readonly asOf: IsoDate;
  readonly now: Date;
  readonly f: Formats;
  /** The counts beside it are of a part of the fleet, this one of all of it. */
  readonly besidePart: boolean;
}) {
  const { store, settings, asOf, now, f, besidePart } = props;
  const since = await sinceOf(store, "last-visit", { settings, now });
  const { told } = await changeCounts(store, { ...changeFrame(settings, asOf), since: since.at });
  return (
    <li className="count count-open">
      <AppLink variant="bare" href="/changes">
        <span className="count-figure">{f.number(told)}</span>{" "}
        <span className="count-words">
          changed {besidePart ? "in the whole fleet " : ""}since {f.shortDate(since.date, asOf)}
        </span>
      </AppLink>
    </li>
  );
}
