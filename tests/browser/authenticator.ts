import type { Page } from "playwright-core";

/** A lock on the page's device that passkeys can be kept behind. @returns whether from now on it is opened */
export async function giveLock(page: Page): Promise<(opens: boolean) => Promise<void>> {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send("WebAuthn.enable");
  const { authenticatorId } = await cdp.send("WebAuthn.addVirtualAuthenticator", {
    options: {
      protocol: "ctap2",
      transport: "internal",
      hasResidentKey: true,
      hasUserVerification: true,
      isUserVerified: true,
      automaticPresenceSimulation: true,
    },
  });
  return async (isUserVerified) => {
    await cdp.send("WebAuthn.setUserVerified", { authenticatorId, isUserVerified });
  };
}
