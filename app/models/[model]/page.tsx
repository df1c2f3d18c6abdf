import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { callsAddress } from "@/app/_ui/causes/address.ts";
import { modelEditAddress, modelEvidenceAddress } from "@/app/_ui/models/address.ts";
import { EngineSketch } from "@/app/_ui/models/engine-sketch.tsx";
import { MakerFirst } from "@/app/_ui/models/maker-first.tsx";
import { ModelFacts } from "@/app/_ui/models/model-facts.tsx";
import { ModelHistory } from "@/app/_ui/models/model-history.tsx";
import { commonMeterUnit, ModelUnitCounts, totalUnits } from "@/app/_ui/models/model-units.tsx";
import { cylindersWords, judgedWords } from "@/app/_ui/models/model-words.ts";
import { RetireForm } from "@/app/_ui/models/retire-form.client.tsx";
import { versionRows } from "@/app/_ui/models/version-rows.ts";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { SavedNote } from "@/app/_ui/saved-note.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { modelVersions, standingModel, unitsByModel } from "@/db/engine-models.ts";
import { readSettings } from "@/db/settings.ts";
import "@/app/_ui/models/models.css";

interface Props {
  readonly params: Promise<{ readonly model: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

// Next hands the parameter to the page as it stands in the address, but to the title's function decoded.
export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: (await params).model };
}

export default async function ModelPage({ params, searchParams }: Props) {
  const id = nameInAddress((await params).model);
  const store = await appStore();
  const model = id === null ? null : await standingModel(store, id);
  if (model === null) notFound();
  const [versions, units, settings, name, f, asked] = await Promise.all([
    modelVersions(store, model.id),
    unitsByModel(store, model.id),
    readSettings(store),
    viewerName(),
    viewerFormats(),
    searchParams,
  ]);
  const saved = [asked["saved"] ?? []].flat()[0] ?? null;
  const count = totalUnits(units);
  return (
    <div className="page">
      <p className="no-print">
        <AppLink href="/models">All engine models</AppLink>
      </p>
      <div className="thing-head">
        <p className="unit-number">{model.id}</p>
        {model.retired && <span className="tag">retired</span>}
        {model.cooling !== undefined && <span className="tag">{model.cooling}-cooled</span>}
        {model.aircraft && <span className="tag">aircraft</span>}
        <p className="second">{[model.name, cylindersWords(model)].filter(Boolean).join("; ")}</p>
      </div>
      <h1 className="finding">{judgedWords(f, model)}</h1>
      <Terms of={["leakage", "orifice", "supply", "spread", "neighbours", "top-end", "bottom-end"]} />
      {saved !== null && <SavedNote store={store} importId={saved} f={f} />}
      <ModelUnitCounts model={model.id} units={units} f={f} />
      <p className="no-print">
        <AppLink href={modelEvidenceAddress(model.id)}>What its findings say of the causes</AppLink> ·{" "}
        <AppLink href={callsAddress(model.id)}>How often its calls were right</AppLink>
      </p>
      <MakerFirst aircraft={model.aircraft} />
      <div className="form-buttons no-print">
        <NameGate name={name}>
          <AppLink href={modelEditAddress(model.id)} variant="filled">
            Change it
          </AppLink>
          <RetireForm model={model} units={count} />
        </NameGate>
      </div>
      <div className="model-sheets">
        <Sheet title="What it is judged by, and what it costs">
          <ModelFacts model={model} meterUnit={commonMeterUnit(units)} f={f} />
        </Sheet>
        <Sheet title="The engine from above" note="front first">
          <EngineSketch model={model} />
        </Sheet>
      </div>
      <ModelHistory
        model={model.id}
        rows={versionRows(versions, model, f)}
        timeZone={settings.timeZone}
        units={count}
        mayChange={name !== null}
        f={f}
      />
    </div>
  );
}
