import type { Metadata } from "next";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import type { AddressParts } from "@/app/_ui/compare/address.ts";
import { NotUnderstood, notUnderstoodWords } from "@/app/_ui/not-understood.tsx";
import { ComparedPlans } from "@/app/_ui/plan/compared-plans.tsx";
import { comparedFinding } from "@/app/_ui/plan/compared-words.ts";
import { PlansChoice } from "@/app/_ui/plan/plans-choice.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { whenWords } from "@/app/_ui/when.ts";
import { appStore } from "@/db/app-store.ts";
import { planHeads, planOf } from "@/db/plans.ts";
import { readSettings } from "@/db/settings.ts";
import { comparePlans } from "@/lib/plan/compare-plans.ts";
import "@/app/_ui/plan/plan.css";

export const metadata: Metadata = { title: "Compare plans" };

const headsShown = 200;

export default async function ComparePlansPage({ searchParams }: { readonly searchParams: Promise<AddressParts> }) {
  const asked = await searchParams;
  const [store, f] = await Promise.all([appStore(), viewerFormats()]);
  const [heads, settings] = await Promise.all([planHeads(store, { limit: headsShown }), readSettings(store)]);
  const idOf = (name: string, otherwise: number | undefined) =>
    heads.find(({ id }) => String(id) === asked[name])?.id ?? otherwise ?? 0;
  const [newest, before] = heads;
  const [a, b] = await Promise.all([
    planOf(store, idOf("before", before?.id)),
    planOf(store, idOf("after", newest?.id)),
  ]);
  if (newest === undefined || a === null || b === null) {
    return (
      <div className="page">
        <h1 className="finding">There are no two plans to compare yet.</h1>
        <Sheet label="What is needed">
          <p>
            A plan is kept each time it is made. <AppLink href="/plan">Go to the plan</AppLink> and make it anew after a
            change.
          </p>
        </Sheet>
      </div>
    );
  }
  const isPlan = (value: string) => heads.some(({ id }) => String(id) === value);
  const says = notUnderstoodWords(asked, { before: isPlan, after: isPlan }, "the two newest plans stand in for it");
  const compared = comparePlans(a.plan, b.plan);
  const nameOf = ({ asOf, madeAt, by }: Pick<typeof newest, "asOf" | "madeAt" | "by">) =>
    `as of ${f.date(asOf)}, made ${whenWords(f, settings.timeZone, madeAt)} by ${by}`;
  return (
    <div className="page">
      <h1 className="finding">{comparedFinding(f, compared, b.plan)}</h1>
      <NotUnderstood says={says} />
      <Sheet label="Plans to compare" className="no-print">
        <PlansChoice plans={heads.map((head) => ({ id: head.id, says: nameOf(head) }))} before={a.id} after={b.id} />
      </Sheet>
      <ComparedPlans f={f} compared={compared} before={a} after={b} names={[nameOf(a), nameOf(b)]} />
    </div>
  );
}
