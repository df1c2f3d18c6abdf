import { type ReactNode, Suspense } from "react";

/**
 * Part of a page that is made and sent after what stands round it; until it comes `meanwhile` keeps its place. Without
 * the pause all would be made before anything is sent, for the database answers at once.
 */
export function Later({ meanwhile, children }: { readonly meanwhile: ReactNode; readonly children: ReactNode }) {
  return (
    <Suspense fallback={meanwhile}>
      <AfterTheRest>{children}</AfterTheRest>
    </Suspense>
  );
}

async function AfterTheRest({ children }: { readonly children: ReactNode }) {
  await new Promise<void>((resolve) => setTimeout(resolve, 0));
  return children;
}
