import type { Settings } from "../../../lib/schema/settings.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { settingTitles, settingWords } from "./setting-words.ts";

/** The settings in force, for somebody who only reads them. */
export function SettingsTold({ f, settings }: { readonly f: Formats; readonly settings: Settings }) {
  const names = Object.keys(settingTitles) as (keyof Settings)[];
  return (
    <dl className="settings-told">
      {names.map((name) => (
        <div key={name}>
          <dt>{settingTitles[name]}</dt>
          <dd>{settingWords(f, name, settings[name])}</dd>
        </div>
      ))}
    </dl>
  );
}
