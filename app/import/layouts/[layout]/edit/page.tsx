import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { layoutAddress } from "@/app/_ui/layouts/address.ts";
import { LayoutDesk } from "@/app/_ui/layouts/layout-desk.client.tsx";
import { LayoutTable } from "@/app/_ui/layouts/layout-table.tsx";
import { layoutOf } from "@/app/_ui/layouts/layout-versions.ts";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { keptLayout } from "@/db/layouts.ts";
import "@/app/_ui/styles/house.css";
import "@/app/_ui/layouts/layouts.css";

interface Props {
  readonly params: Promise<{ readonly layout: string }>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `Change ${(await params).layout}` };
}

export default async function EditLayoutPage({ params }: Props) {
  const name = nameInAddress((await params).layout) ?? "";
  const row = await keptLayout(await appStore(), name);
  const layout = row === null ? null : layoutOf(row);
  if (row === null || layout === null) notFound();
  return (
    <div className="page">
      <p className="no-print">
        <AppLink href={layoutAddress(name)}>Back to {name}</AppLink>
      </p>
      <h1 className="finding">Change {name}. What you keep is its next version; the others stay.</h1>
      <Sheet title="Its name and columns" note="columns are found by their headings; change what is not right" long>
        <NameGate name={await viewerName()} told={<LayoutTable name={name} layout={layout} />}>
          <LayoutDesk key={row.id} was={name} after={row.id} layout={layout} />
        </NameGate>
      </Sheet>
    </div>
  );
}
