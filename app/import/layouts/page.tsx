import type { Metadata } from "next";
import { connection } from "next/server";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { EmptyState } from "@/app/_ui/empty-state.tsx";
import { layoutsFinding } from "@/app/_ui/layouts/kept-words.ts";
import { LayoutList } from "@/app/_ui/layouts/layout-list.tsx";
import { LayoutUpload } from "@/app/_ui/layouts/layout-upload.client.tsx";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { allLayouts, layoutUses } from "@/db/layouts.ts";
import { readSettings } from "@/db/settings.ts";
import "@/app/_ui/styles/house.css";
import "@/app/_ui/layouts/layouts.css";

export const metadata: Metadata = { title: "Layouts" };

export default async function LayoutsPage() {
  // Nothing before the store tells that this page cannot be made ahead at build time.
  await connection();
  const store = await appStore();
  const [rows, uses, { timeZone }, name, f] = await Promise.all([
    allLayouts(store),
    layoutUses(store),
    readSettings(store),
    viewerName(),
    viewerFormats(),
  ]);
  const inUse = rows.filter(({ withdrawn }) => !withdrawn);
  const withdrawn = rows.filter((row) => row.withdrawn);
  const listed = { uses, timeZone, f };
  return (
    <div className="page">
      <p className="no-print">
        <AppLink href="/import">Back to Import</AppLink>
      </p>
      <h1 className="finding">
        {rows.length === 0
          ? "No layout is kept yet. A layout says how the columns of a workshop’s own files are read."
          : layoutsFinding(inUse.length, withdrawn.length)}
      </h1>
      {rows.length === 0 ? (
        <EmptyState says="Import a file with columns of its own, say on its page how they are read, and give that a name: the next file with these headings is then read by itself.">
          <AppLink href="/import" variant="filled">
            Import files
          </AppLink>
        </EmptyState>
      ) : (
        <Sheet title="In use" note="Open one to see its columns, to change it or to withdraw it." long>
          {inUse.length === 0 ? <p>All layouts are withdrawn.</p> : <LayoutList rows={inUse} {...listed} />}
        </Sheet>
      )}
      {withdrawn.length > 0 && (
        <Sheet title="Withdrawn" note="No file is recognised by these; open one to put it back." long>
          <LayoutList rows={withdrawn} {...listed} />
        </Sheet>
      )}
      <Sheet title="Bring one in" note="from another Borecast, or from a copy that was downloaded" className="no-print">
        <NameGate name={name}>
          <LayoutUpload onto={null} />
        </NameGate>
      </Sheet>
    </div>
  );
}
