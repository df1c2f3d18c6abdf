import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { MakerFirst } from "@/app/_ui/models/maker-first.tsx";
import { ModelDesk } from "@/app/_ui/models/model-desk.client.tsx";
import { draftOf } from "@/app/_ui/models/model-draft.ts";
import { ModelFacts } from "@/app/_ui/models/model-facts.tsx";
import { commonMeterUnit } from "@/app/_ui/models/model-units.tsx";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { standingModel, unitsByModel } from "@/db/engine-models.ts";
import "@/app/_ui/models/models.css";

interface Props {
  readonly params: Promise<{ readonly model: string }>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `Change ${(await params).model}` };
}

export default async function EditModelPage({ params }: Props) {
  const id = nameInAddress((await params).model);
  const store = await appStore();
  const model = id === null ? null : await standingModel(store, id);
  if (model === null) notFound();
  const [name, f] = await Promise.all([viewerName(), viewerFormats()]);
  return (
    <div className="page">
      <h1 className="finding">Change {model.id}. You see which units would change band before anything is kept.</h1>
      <Terms of={["leakage", "orifice", "supply", "spread", "neighbours", "top-end", "bottom-end"]} />
      <MakerFirst aircraft={model.aircraft} />
      <Sheet label="Fields of the engine model">
        <NameGate
          name={name}
          told={<ModelFacts model={model} meterUnit={commonMeterUnit(await unitsByModel(store, model.id))} f={f} />}
        >
          <ModelDesk draft={draftOf(model)} seen={model} name={name ?? ""} />
        </NameGate>
      </Sheet>
    </div>
  );
}
