import { lookup, type LookupAddress } from 'node:dns';
import { BlockList, isIP, type LookupFunction } from 'node:net';

/**
 * What is not the public internet, by the special-purpose registries of IANA (RFC 6890 and its updates): private, loopback,
 * link-local with the metadata services of clouds, shared, documentation, benchmarking, multicast, reserved. Of IPv6 only
 * global unicast is reached, without what carries an IPv4 address inside it.
 */
const REFUSED = new BlockList();
for (const [net, prefix] of [
  ...([
    ['0.0.0.0', 8],
    ['10.0.0.0', 8],
    ['100.64.0.0', 10],
    ['127.0.0.0', 8],
    ['169.254.0.0', 16],
  ] as const),
  ...([
    ['172.16.0.0', 12],
    ['192.0.0.0', 24],
    ['192.0.2.0', 24],
    ['192.88.99.0', 24],
    ['192.168.0.0', 16],
  ] as const),
  ...([
    ['198.18.0.0', 15],
    ['198.51.100.0', 24],
    ['203.0.113.0', 24],
    ['224.0.0.0', 3],
  ] as const),
] as const) {
  REFUSED.addSubnet(net, prefix, 'ipv4');
}
for (const [net, prefix] of [
  ['2001::', 23],
  ['2001:db8::', 32],
  ['2002::', 16],
  ['3fff::', 20],
] as const) {
  REFUSED.addSubnet(net, prefix, 'ipv6');
}
const GLOBAL_UNICAST = new BlockList();
GLOBAL_UNICAST.addSubnet('2000::', 3, 'ipv6');

export function isPublicAddress(address: string): boolean {
  switch (isIP(address)) {
    case 4:
      return !REFUSED.check(address, 'ipv4');
    case 6:
      return GLOBAL_UNICAST.check(address, 'ipv6') && !REFUSED.check(address, 'ipv6');
    default:
      return false;
  }
}

/**
 * What can be said against an address before its name is looked up: what is expected instead; null when nothing.
 *
 * @param privateToo - also plain http, and addresses inside of networks
 */
export function refusedAddress(text: string, privateToo: boolean): string | null {
  const url = URL.canParse(text) ? new URL(text) : null;
  if (url === null || !(url.protocol === 'https:' || (privateToo && url.protocol === 'http:'))) {
    return 'an address that begins with https://';
  }
  if (url.username !== '' || url.password !== '') return 'an address without a name and a password in it';
  // However it was written, an address of four numbers stands here as such.
  const host = url.hostname.replace(/^\[|\]$/g, '');
  if (privateToo || isIP(host) === 0 || isPublicAddress(host)) return null;
  return 'an address of the public internet';
}

/** Says that a name leads where nothing is sent to. */
export class AddressRefused extends Error {
  override readonly name = 'AddressRefused';
}

/** As a connection looks a name up: what was found and checked is what it connects to, so no second answer slips in. */
export const publicLookup: LookupFunction = (hostname, options, done) => {
  lookup(hostname, { ...options, all: true }, (error, found: LookupAddress[]) => {
    if (error !== null) {
      done(error, '');
      return;
    }
    const [first] = found;
    if (first === undefined || !found.every(({ address }) => isPublicAddress(address))) {
      done(new AddressRefused('the name leads to an address that is not of the public internet'), '');
    } else if (options.all === true) done(null, found);
    else done(null, first.address, first.family);
  });
};
