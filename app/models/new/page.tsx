import type { Metadata } from "next";
import { MakerFirst } from "@/app/_ui/models/maker-first.tsx";
import { ModelDesk } from "@/app/_ui/models/model-desk.client.tsx";
import { draftOf } from "@/app/_ui/models/model-draft.ts";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { viewerName } from "@/app/_ui/viewer.ts";
import "@/app/_ui/models/models.css";

export const metadata: Metadata = { title: "New engine model" };

export default async function NewModelPage() {
  const name = await viewerName();
  return (
    <div className="page">
      <h1 className="finding">Add an engine model: what its engines are judged by, and what a repair costs.</h1>
      <Terms of={["leakage", "orifice", "supply", "spread", "neighbours", "top-end", "bottom-end"]} />
      <MakerFirst aircraft={false} />
      <Sheet label="Fields of the engine model">
        <NameGate name={name}>
          <ModelDesk draft={draftOf(null)} seen={null} name={name ?? ""} />
        </NameGate>
      </Sheet>
    </div>
  );
}
