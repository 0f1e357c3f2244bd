import type { Page } from "playwright-core";

/**
 * Gives the page's device a lock that can keep passkeys.
 * @returns a function that sets whether the lock opens
 */
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
