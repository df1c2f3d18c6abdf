import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { enginesAddress, readEnginesAddress } from "@/app/_ui/engines/address.ts";
import { EnginesView } from "@/app/_ui/engines/engines-view.tsx";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { enginePage } from "@/db/engines.ts";
import "@/app/_ui/unit/unit.css";
import "@/app/_ui/engines/engines.css";

export const metadata: Metadata = { title: "Engines" };

const pageSize = 50;

interface Props {
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export default async function EnginesPage({ searchParams }: Props) {
  const view = readEnginesAddress(await searchParams);
  const [{ rows, total }, f] = await Promise.all([
    enginePage(await appStore(), { ...view, pageSize }),
    viewerFormats(),
  ]);
  const lastPage = Math.max(1, Math.ceil(total / pageSize));
  if (view.page > lastPage) redirect(enginesAddress({ ...view, page: lastPage }));
  return <EnginesView view={view} engines={rows} total={total} pageSize={pageSize} f={f} />;
}
