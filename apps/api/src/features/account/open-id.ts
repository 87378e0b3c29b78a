import { createHmac } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import * as client from 'openid-client';
import { ApiError } from '../../common/problems.js';
import { SETTINGS, type OpenIdSettings, type Settings } from '../../config/settings.js';

/** Where the provider sends people back to. */
export const CALLBACK = '/account/elsewhere/callback';

/** What the browser keeps while its person is at the provider. */
export interface Errand {
  readonly state: string;
  readonly nonce: string;
  readonly verifier: string;
  /** To accept an invitation rather than to sign in. */
  readonly join?: { readonly invitation: string; readonly name: string };
  /** To be known there from now on rather than to sign in. */
  readonly link?: true;
}

/**
 * Signing in through an OpenID provider: authorization code flow with PKCE, state and nonce, all checked by the client
 * library. What comes out is a proof made with a secret of the service, by which the database knows the person; who it
 * is there is not kept.
 *
 * @see OpenID Connect Core 1.0, section 3.1; RFC 7636; RFC 9700
 */
@Injectable()
export class OpenId {
  private readonly settings: OpenIdSettings | null;
  private discovered: Promise<client.Configuration> | null = null;

  constructor(@Inject(SETTINGS) settings: Settings) {
    this.settings = settings.openId;
  }

  get offered(): boolean {
    return this.settings !== null;
  }

  async begin(origin: string, purpose: Pick<Errand, 'join' | 'link'>): Promise<{ address: string; errand: Errand }> {
    const { configuration } = await this.provider();
    const verifier = client.randomPKCECodeVerifier();
    const errand = { state: client.randomState(), nonce: client.randomNonce(), verifier, ...purpose };
    const address = client.buildAuthorizationUrl(configuration, {
      redirect_uri: `${origin}${CALLBACK}`,
      scope: 'openid',
      state: errand.state,
      nonce: errand.nonce,
      code_challenge: await client.calculatePKCECodeChallenge(verifier),
      code_challenge_method: 'S256',
    });
    return { address: address.href, errand };
  }

  /**
   * @param address - to which the provider sent the browser back, with its answer
   * @returns the proof of who it is there
   * @throws ApiError `access.sign_in_refused` when the provider refused, or its answer does not belong to the errand
   */
  async finish(address: URL, { state, nonce, verifier }: Errand): Promise<Buffer> {
    const { configuration, settings } = await this.provider();
    const checks = { expectedState: state, expectedNonce: nonce, pkceCodeVerifier: verifier, idTokenExpected: true };
    const tokens = await client.authorizationCodeGrant(configuration, address, checks).catch(() => null);
    const claims = tokens?.claims();
    if (claims === undefined) {
      throw new ApiError('access.sign_in_refused', 'the provider did not say who you are; try again');
    }
    return createHmac('sha256', settings.identitySecret)
      .update(JSON.stringify([claims.iss, claims.sub]))
      .digest();
  }

  private async provider(): Promise<{ configuration: client.Configuration; settings: OpenIdSettings }> {
    const { settings } = this;
    if (settings === null) throw new ApiError('request.not_found', 'no provider is set up here');
    this.discovered ??= discover(settings);
    try {
      return { configuration: await this.discovered, settings };
    } catch (error) {
      // Asked again next time: it may only have been away.
      this.discovered = null;
      const told = new ApiError('server.busy', 'the provider cannot be reached');
      told.cause = error;
      throw told;
    }
  }
}

function discover({ issuer, clientId, clientSecret }: OpenIdSettings): Promise<client.Configuration> {
  const url = new URL(issuer);
  // The settings let in plain http for this very machine only. The library marks it so that nobody uses it elsewhere.
  // eslint-disable-next-line @typescript-eslint/no-deprecated
  const options = url.protocol === 'http:' ? { execute: [client.allowInsecureRequests] } : {};
  return client.discovery(url, clientId, clientSecret, undefined, options);
}
