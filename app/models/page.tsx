import type { Metadata } from "next";
import { connection } from "next/server";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { CsvLink } from "@/app/_ui/csv-link.tsx";
import { EmptyState } from "@/app/_ui/empty-state.tsx";
import { MakerFirst } from "@/app/_ui/models/maker-first.tsx";
import { ModelList } from "@/app/_ui/models/model-list.tsx";
import { totalUnits } from "@/app/_ui/models/model-units.tsx";
import { modelsFinding } from "@/app/_ui/models/model-words.ts";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { standingModels, unitsByModel } from "@/db/engine-models.ts";
import "@/app/_ui/models/models.css";

export const metadata: Metadata = { title: "Engine models" };

export default async function ModelsPage() {
  // Nothing before the store tells that this page cannot be made ahead at build time.
  await connection();
  const store = await appStore();
  const [models, units, f] = await Promise.all([standingModels(store), unitsByModel(store), viewerFormats()]);
  if (models.length === 0) return <NoModels />;
  const inUse = models.filter((model) => !model.retired);
  const retired = models.filter((model) => model.retired);
  return (
    <div className="page">
      <h1 className="finding">{f.words(modelsFinding(models, totalUnits(units)))}</h1>
      <Terms of={["leakage", "orifice", "supply", "spread", "neighbours", "top-end", "bottom-end"]} />
      <MakerFirst aircraft={false} />
      <div className="form-buttons no-print">
        <AppLink href="/models/new" variant="filled">
          Add an engine model
        </AppLink>
        <a className="button-link" href="/models.json" download="engine-models.json">
          Download as JSON
        </a>
      </div>
      <Sheet
        title="In use"
        note="Open one to change it, to retire it, or to see who told what of it."
        controls={<CsvLink href="/models.csv" of="all engine models" />}
        long
      >
        {inUse.length === 0 ? <p>All engine models are retired.</p> : <ModelList models={inUse} units={units} f={f} />}
      </Sheet>
      {retired.length > 0 && (
        <Sheet title="Retired" note="Not meant for new units; units that have one are assessed as before." long>
          <details className="set-apart">
            <summary>
              {f.number(retired.length)} {retired.length === 1 ? "model" : "models"}
            </summary>
            <ModelList models={retired} units={units} f={f} />
          </details>
        </Sheet>
      )}
    </div>
  );
}

function NoModels() {
  return (
    <div className="page">
      <h1 className="finding">No engine model is known yet. Units are judged by the limits of theirs.</h1>
      <EmptyState says="Add one by hand, or bring in a file with several; a sample of that file can be downloaded.">
        <div className="form-buttons">
          <AppLink href="/models/new" variant="filled">
            Add an engine model
          </AppLink>
          <AppLink href="/import" variant="button">
            Import files
          </AppLink>
          <a className="button-link" href="/samples/engine-models.json" download>
            Sample as JSON
          </a>
        </div>
      </EmptyState>
    </div>
  );
}
