import type { Metadata } from "next";
import { asOfDate } from "@/app/_jobs/as-of.ts";
import { runningJobs } from "@/app/_jobs/job-registry.ts";
import { whatIsLeft } from "@/app/_jobs/reassess-day.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { LeftOver } from "@/app/_ui/settings/left-over.client.tsx";
import { putBackWords, settingsFinding } from "@/app/_ui/settings/setting-words.ts";
import { SettingsDesk } from "@/app/_ui/settings/settings-desk.client.tsx";
import { putBackFields, settingsFields } from "@/app/_ui/settings/settings-fields.ts";
import { SettingsHistory } from "@/app/_ui/settings/settings-history.tsx";
import { SettingsTold } from "@/app/_ui/settings/settings-told.tsx";
import { timeZones } from "@/app/_ui/settings/time-zones.ts";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { readSettings, settingChanges, settingsVersion } from "@/db/settings.ts";
import { settingsSchema } from "@/lib/schema/settings.ts";
import "@/app/_ui/styles/house.css";

export const metadata: Metadata = { title: "Settings" };

const changesShown = 100;

interface Props {
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export default async function SettingsPage({ searchParams }: Props) {
  const store = await appStore();
  const { back } = await searchParams;
  const now = new Date();
  const [settings, version, changes, left, f, viewer] = await Promise.all([
    readSettings(store),
    settingsVersion(store),
    settingChanges(store, { limit: changesShown + 1 }),
    whatIsLeft(store, now),
    viewerFormats(),
    viewerName(),
  ]);
  const job = runningJobs().find(({ kind }) => kind === "settings")?.id ?? null;
  const isWorking = runningJobs().some(({ kind }) => kind !== "stage" && kind !== "preview");
  const change = changes.find(({ id }) => String(id) === back);
  const putBack = change === undefined ? null : { fields: putBackFields(change), says: putBackWords(f, change) };
  return (
    <div className="page">
      <h1 className="finding">{settingsFinding(f, settings, asOfDate(settings, now))}</h1>
      <Terms of={["lead-time", "watch", "plan", "past-limit", "crossing"]} />
      <p className="no-print">
        <AppLink href="/settings/workshop">Prices and workshops</AppLink>: what the plan and the budget reckon with.
      </p>
      {viewer !== null && !isWorking && (left.isBehind || left.isOtherDay) && <LeftOver />}
      <Sheet label="Settings of the fleet" className="no-print">
        <NameGate name={viewer} told={<SettingsTold f={f} settings={settings} />}>
          <SettingsDesk
            key={change?.id ?? "form"}
            fields={settingsFields(settings)}
            version={version}
            putBack={putBack}
            defaults={settingsFields(settingsSchema.parse({}))}
            timeZones={timeZones()}
            job={job}
          />
        </NameGate>
      </Sheet>
      <SettingsHistory
        f={f}
        changes={changes.slice(0, changesShown)}
        more={changes.length > changesShown}
        timeZone={settings.timeZone}
        mayChange={viewer !== null}
      />
    </div>
  );
}
