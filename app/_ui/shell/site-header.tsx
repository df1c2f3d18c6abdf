import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { FindButton } from "../find/find-button.client.tsx";
import { NameForm } from "../name-form.client.tsx";
import { FormatsForm } from "./formats-form.tsx";
import { HeaderMenu } from "./header-menu.client.tsx";
import { Mark } from "./mark.tsx";
import { PlaceLinks } from "./place-links.client.tsx";
import { SchemeChoice } from "./scheme-choice.client.tsx";

export function SiteHeader(props: {
  readonly f: Formats;
  readonly asOf: IsoDate;
  readonly fleetName: string;
  readonly viewer: string | null;
}) {
  const fleet = props.fleetName === "" ? "" : `${props.fleetName}, `;
  return (
    <header className="site-header">
      <AppLink href="/" variant="bare" className="site-name">
        <Mark />
        Borecast
      </AppLink>
      <nav aria-label="Pages" className="wide-only">
        <PlaceLinks />
      </nav>
      <p className="header-as-of">
        <span className="fleet-name">{fleet}</span>
        {fleet === "" ? "As of" : "as of"} {props.f.date(props.asOf)}
      </p>
      <FindButton />
      <HeaderMenu
        title={
          <>
            <span className="wide-only">{props.viewer ?? "Your name"}</span>
            <span className="small-only">Menu</span>
          </>
        }
      >
        <nav aria-label="Pages" className="small-only">
          <PlaceLinks />
        </nav>
        <NameForm name={props.viewer} />
        <SchemeChoice />
        <FormatsForm preferences={props.f.preferences} />
      </HeaderMenu>
    </header>
  );
}
