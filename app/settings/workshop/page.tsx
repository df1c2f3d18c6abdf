import type { Metadata } from "next";
import { asOfDate } from "@/app/_jobs/as-of.ts";
import { fleetKnown } from "@/app/_jobs/workshop-file.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { WorkshopDesk } from "@/app/_ui/workshop/workshop-desk.client.tsx";
import { workshopFields } from "@/app/_ui/workshop/workshop-fields.ts";
import { WorkshopHistory } from "@/app/_ui/workshop/workshop-history.tsx";
import { WorkshopTold } from "@/app/_ui/workshop/workshop-told.tsx";
import { WorkshopUpload } from "@/app/_ui/workshop/workshop-upload.client.tsx";
import { workshopFinding } from "@/app/_ui/workshop/workshop-words.ts";
import { appStore } from "@/db/app-store.ts";
import { depotOverviews } from "@/db/depot-overview.ts";
import { standingModels } from "@/db/engine-models.ts";
import { fleetClasses } from "@/db/fleet-classes.ts";
import { readSettings } from "@/db/settings.ts";
import { workshopHistory, workshopTold } from "@/db/workshop.ts";
import { isoWeek } from "@/lib/calendar.ts";
import { workshopCautions } from "@/lib/plan/workshop-cautions.ts";
import { workshopSchema } from "@/lib/schema/workshop.ts";
import "@/app/_ui/styles/house.css";
import "@/app/_ui/workshop/workshop.css";

export const metadata: Metadata = { title: "Prices and workshops" };

const changesShown = 50;

export default async function WorkshopPage() {
  const store = await appStore();
  const [told, history, classes, depots, models, settings, f, viewer, known] = await Promise.all([
    workshopTold(store),
    workshopHistory(store, { limit: changesShown + 1 }),
    fleetClasses(store),
    depotOverviews(store),
    standingModels(store),
    readSettings(store),
    viewerFormats(),
    viewerName(),
    fleetKnown(store, new Date()),
  ]);
  const cautions = workshopCautions(told.workshop, known);
  return (
    <div className="page">
      <p className="no-print">
        <AppLink href="/settings">Settings</AppLink>
      </p>
      <h1 className="finding">{workshopFinding(f, told.workshop)}</h1>
      {cautions.length > 0 && (
        <ul>
          {cautions.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      <Terms of={["lead-time", "bay-day", "peak-week", "bottom-end"]} />
      <Sheet
        title="Prices and workshops"
        note="What the plan and the budget reckon with. Each value is yours to change."
        controls={
          <a href="/settings/workshop.json" download="workshop.json" className="button-link no-print">
            Download JSON<span className="visually-hidden"> of prices and workshops, depots and pins</span>
          </a>
        }
        long
      >
        <NameGate name={viewer} told={<WorkshopTold f={f} workshop={told.workshop} />}>
          <WorkshopDesk
            fields={workshopFields(told.workshop, classes)}
            defaults={workshopFields(workshopSchema.parse({}), []).figures}
            after={told.id}
            year={isoWeek(asOfDate(settings, new Date())).year}
            depots={depots.map(({ depot }) => depot)}
            models={models.map(({ id }) => id)}
          />
        </NameGate>
      </Sheet>
      <Sheet
        title="Load a file"
        note="In place of what stands above; its depots go to the depots’ own pages."
        className="no-print"
      >
        <NameGate name={viewer}>
          <WorkshopUpload />
        </NameGate>
      </Sheet>
      <WorkshopHistory
        f={f}
        history={history}
        shown={changesShown}
        timeZone={settings.timeZone}
        mayChange={viewer !== null}
      />
    </div>
  );
}
