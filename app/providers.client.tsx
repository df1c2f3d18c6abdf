"use client";

import { MantineProvider } from "@mantine/core";
import { Notifications } from "@mantine/notifications";
import { NuqsAdapter } from "nuqs/adapters/next/app";
import type { ReactNode } from "react";
import { resolveCssVariables, theme } from "./_ui/theme.client.ts";

export function Providers({ children }: { readonly children: ReactNode }) {
  return (
    <MantineProvider theme={theme} cssVariablesResolver={resolveCssVariables} defaultColorScheme="auto">
      <NuqsAdapter>{children}</NuqsAdapter>
      <Notifications position="bottom-right" />
    </MantineProvider>
  );
}
