import ipaddr from 'ipaddr.js'

/**
 * Where a machine is told what it is and what it may: link-local by standard (RFC 3927, RFC 4291), the others by what hosts
 * of machines use (common practice, no source). Nothing that people enter may reach these, also where private addresses are
 * allowed: they answer with keys.
 */
const OF_MACHINES_V4 = ['169.254.0.0/16', '100.100.100.200/32', '168.63.129.16/32', '192.0.0.192/32'] as const
const OF_MACHINES_V6 = ['fe80::/10', 'fd00:ec2::254/128'] as const

/** An IPv4 network in each way that IPv6 has to write it. */
function formsOf(network: string): string[] {
  const [address, bits] = ipaddr.IPv4.parseCIDR(network)
  const [a = 0, b = 0, c = 0, d = 0] = address.octets
  const v4 = `${(a * 256 + b).toString(16)}:${(c * 256 + d).toString(16)}`
  return [
    network,
    `::ffff:${v4}/${96 + bits}`, // mapped, RFC 4291
    `::${v4}/${96 + bits}`, // compatible, deprecated there
    `::ffff:0:${v4}/${96 + bits}`, // translated, RFC 6145
    `64:ff9b::${v4}/${96 + bits}`, // NAT64, RFC 6052
    `2002:${v4}::/${16 + bits}`, // 6to4, RFC 3056
  ]
}

const NEVER_CALLED = [...OF_MACHINES_V4.flatMap(formsOf), ...OF_MACHINES_V6].map((network) =>
  ipaddr.parseCIDR(network),
)
const DEPRECATED = ipaddr.parseCIDR('::/96')

/** Whether an address is one of those that a webhook never calls, whatever is allowed. */
export function isNeverCalled(address: string): boolean {
  return NEVER_CALLED.some((network) => isIn(address, network))
}

/** IPv4 as it was first written in IPv6: nothing routes there, and lists of ranges take it for a public address. */
export function isInDeprecatedForm(address: string): boolean {
  return isIn(address, DEPRECATED) && ipaddr.parse(address).range() === 'unicast'
}

function isIn(address: string, [start, bits]: ReturnType<typeof ipaddr.parseCIDR>): boolean {
  if (!ipaddr.isValid(address)) return false
  const parsed = ipaddr.parse(address)
  return parsed.kind() === start.kind() && parsed.match([start, bits])
}
