"use client";

import { MantineProvider } from "@mantine/core";
import { Notifications } from "@mantine/notifications";
import type { ReactNode } from "react";
import { resolveCssVariables, theme } from "./_ui/theme.client.ts";

export function Providers({ children }: { readonly children: ReactNode }) {
  return (
    <MantineProvider theme={theme} cssVariablesResolver={resolveCssVariables} defaultColorScheme="auto">
      {children}
      <Notifications position="bottom-right" />
    </MantineProvider>
  );
}
