import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { asOfDate, dateIn } from "@/app/_jobs/as-of.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { type ChangesView, changesAddress, readChangesAddress } from "@/app/_ui/changes/address.ts";
import { ChangesCountLinks } from "@/app/_ui/changes/changes-counts.tsx";
import { ChangesKey } from "@/app/_ui/changes/changes-key.tsx";
import { ChangesPaging } from "@/app/_ui/changes/changes-paging.tsx";
import { ChangesTable } from "@/app/_ui/changes/changes-table.tsx";
import { changesFinding } from "@/app/_ui/changes/finding.ts";
import { sinceOf } from "@/app/_ui/changes/since.ts";
import { SinceChoice } from "@/app/_ui/changes/since-choice.tsx";
import { sinceNote, sinceWords } from "@/app/_ui/changes/since-words.ts";
import { toldChange } from "@/app/_ui/changes/told-change.ts";
import { EmptyState } from "@/app/_ui/empty-state.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { AxisLines } from "@/app/_ui/time-axis.tsx";
import { timeSpan } from "@/app/_ui/time-span.ts";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { WindowInk } from "@/app/_ui/window-glyph.tsx";
import { appStore } from "@/db/app-store.ts";
import { changeCounts, changedUnits } from "@/db/changes.ts";
import { fleetOptions } from "@/db/fleet.ts";
import { countUnits } from "@/db/fleet-counts.ts";
import { readSettings } from "@/db/settings.ts";
import { changeFrame } from "@/lib/changes/compare.ts";

export const metadata: Metadata = { title: "What changed" };

const axisYears = 3;

interface Props {
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export default async function ChangesPage({ searchParams }: Props) {
  const view = readChangesAddress(await searchParams);
  const store = await appStore();
  const [settings, f, units] = await Promise.all([readSettings(store), viewerFormats(), countUnits(store)]);
  if (units === 0) return <NothingYet />;

  const now = new Date();
  const frame = changeFrame(settings, asOfDate(settings, now));
  const since = await sinceOf(store, view.since, { settings, now });
  const asked = { ...frame, since: since.at };
  const [counts, { units: changed, total }, { depots }] = await Promise.all([
    changeCounts(store, { ...asked, depot: view.depot }),
    changedUnits(store, asked, view),
    fleetOptions(store),
  ]);
  const ofDepot = view.depot === null ? units : await countUnits(store, view.depot);
  const lastPage = Math.max(1, Math.ceil(total / view.pageSize));
  if (view.page > lastPage) redirect(changesAddress(view, { page: lastPage }));

  const span = timeSpan(frame.asOf, axisYears);
  const shown = { units: changed.map((unit) => toldChange(unit, frame)), frame, span, linesId: "changes-axis", f };
  return (
    <div className="page">
      <h1 className="finding">
        {changesFinding(counts, { units: ofDepot, depot: view.depot, since: sinceWords(since, f), f })}
      </h1>
      <Terms of={["window", "watch", "plan", "past-limit"]} />
      <ChangesCountLinks counts={counts} view={view} f={f} />
      <Sheet label="Units that changed" long className="fleet-sheet">
        <SinceChoice view={view} date={since.date} today={dateIn(settings.timeZone, now)} depots={depots} />
        <p className="sheet-note">{sinceNote(since, { rows: total > 0, settings, f })}</p>
        {total === 0 ? (
          <NoneSuch view={view} changed={counts.told} />
        ) : (
          <>
            <WindowInk />
            <AxisLines id={shown.linesId} span={span} />
            <ChangesKey />
            <ChangesTable {...shown} />
            <ChangesPaging view={view} total={total} f={f} />
          </>
        )}
      </Sheet>
    </div>
  );
}

function NothingYet() {
  return (
    <div className="page">
      <h1 className="finding">No unit has been assessed, so there is nothing to compare.</h1>
      <Sheet label="What to do">
        <EmptyState says="Each import makes forecasts, and they are kept as they were issued. After the next one this page tells which units moved, and why.">
          <AppLink href="/import" variant="filled">
            Import test results
          </AppLink>
        </EmptyState>
      </Sheet>
    </div>
  );
}

function NoneSuch({ view, changed }: { readonly view: ChangesView; readonly changed: number }) {
  const isPart = view.kind !== null || view.direction !== null;
  if (view.depot !== null || (isPart && changed > 0)) {
    return (
      <EmptyState says={isPart ? "No unit changed in this way." : "No unit of this depot changed."}>
        <AppLink variant="button" href={changesAddress(view, { kind: null, direction: null, depot: null })}>
          Show all changes
        </AppLink>
      </EmptyState>
    );
  }
  return (
    <EmptyState says="No unit’s band or window has moved. New tests, repairs and meter readings come in by an import; to look further back, choose an earlier date.">
      <AppLink variant="button" href="/import">
        Import test results
      </AppLink>
    </EmptyState>
  );
}
