"use client";

import { MantineProvider } from "@mantine/core";
import { Notifications } from "@mantine/notifications";
import type { ReactNode } from "react";
import type { Preferences } from "../lib/viewing/preferences.ts";
import { FormatsProvider } from "./_ui/formats.client.tsx";
import { resolveCssVariables, theme } from "./_ui/theme.client.ts";

export function Providers(props: { readonly preferences: Preferences; readonly children: ReactNode }) {
  return (
    <MantineProvider theme={theme} cssVariablesResolver={resolveCssVariables} defaultColorScheme="auto">
      <FormatsProvider preferences={props.preferences}>{props.children}</FormatsProvider>
      <Notifications position="bottom-right" />
    </MantineProvider>
  );
}
