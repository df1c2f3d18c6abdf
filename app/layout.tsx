import "@fontsource-variable/source-sans-3/wght.css";
import "@fontsource-variable/source-serif-4/wght.css";
import "@mantine/core/styles.layer.css";
import "@mantine/notifications/styles.layer.css";
import "./globals.css";

import { ColorSchemeScript, mantineHtmlProps } from "@mantine/core";
import type { Metadata, Viewport } from "next";
import { connection } from "next/server";
import type { ReactNode } from "react";
import { BandInk } from "./_ui/band-ink.tsx";
import { frameFacts } from "./_ui/shell/frame-facts.ts";
import { PageWait } from "./_ui/shell/page-wait.tsx";
import { SiteFoot } from "./_ui/shell/site-foot.tsx";
import { SiteHeader } from "./_ui/shell/site-header.tsx";
import { SheetsWaiting } from "./_ui/test-sheet/sheets-waiting.client.tsx";
import { viewerFormats, viewerName } from "./_ui/viewer.ts";
import { Providers } from "./providers.client.tsx";

export const metadata: Metadata = {
  title: { default: "Fleet · Borecast", template: "%s · Borecast" },
  description: "Compression and leak-down results of a fleet, and when each engine's repair falls due.",
};

export const viewport: Viewport = {
  themeColor: [
    { media: "(prefers-color-scheme: light)", color: "#0c3a40" },
    { media: "(prefers-color-scheme: dark)", color: "#0a1f23" },
  ],
};

export default async function RootLayout({ children }: { readonly children: ReactNode }) {
  // The frame tells the as-of date and the last import, so no page is made ahead at build time.
  await connection();
  const [facts, viewer, f] = await Promise.all([frameFacts(), viewerName(), viewerFormats()]);
  return (
    <html lang="en" {...mantineHtmlProps}>
      <head>
        <ColorSchemeScript defaultColorScheme="auto" />
      </head>
      <body>
        <Providers preferences={f.preferences}>
          <a href="#main" className="skip-link">
            Skip to the page
          </a>
          <BandInk />
          <div className="shell">
            <SiteHeader f={f} asOf={facts.asOf} fleetName={facts.fleetName} viewer={viewer} />
            <SheetsWaiting />
            <main id="main" tabIndex={-1}>
              {children}
            </main>
            <PageWait />
            <SiteFoot f={f} asOf={facts.asOf} hasAircraft={facts.hasAircraft} lastImport={facts.lastImport} />
          </div>
        </Providers>
      </body>
    </html>
  );
}
