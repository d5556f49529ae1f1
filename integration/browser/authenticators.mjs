// The authenticator of a page, which holds the passkeys of whoever has the device in
// hand (Chrome DevTools Protocol, domain WebAuthn).

export async function ring(page) {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('WebAuthn.enable');
  const { authenticatorId } = await cdp.send('WebAuthn.addVirtualAuthenticator', {
    options: { protocol: 'ctap2', transport: 'internal', hasResidentKey: true, hasUserVerification: true, isUserVerified: true, automaticPresenceSimulation: true },
  });
  const all = async () => (await cdp.send('WebAuthn.getCredentials', { authenticatorId })).credentials;
  return {
    all,
    // verified says whether whoever has the device can show that it is theirs.
    verified: (isUserVerified) => cdp.send('WebAuthn.setUserVerified', { authenticatorId, isUserVerified }),
    // hold has the device hold this passkey and no other.
    hold: async (key) => {
      for (const { credentialId } of await all()) await cdp.send('WebAuthn.removeCredential', { authenticatorId, credentialId });
      await cdp.send('WebAuthn.addCredential', { authenticatorId, credential: key });
    },
  };
}
