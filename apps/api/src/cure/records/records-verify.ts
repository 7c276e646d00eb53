import { fileURLToPath } from 'node:url'
import { readConfig } from '../../foundation/config/config.ts'
import { connect } from '../../foundation/database/connect.ts'
import { keptHeads } from './kept-heads.ts'
import { verifyRecords, type RecordFault, type Verified } from './verify.ts'

/**
 * `npm run records:verify`: exits with 1 when a chain of bond records is broken, or a table holds otherwise than it says.
 * `-- --head HASH` or `-- --head FILE`: what was kept elsewhere must still be in a chain.
 */
try {
  const kept = await keptHeads(process.argv.slice(2))
  const database = await connect(
    readConfig(process.env, []),
    fileURLToPath(new URL('../../../prisma/migrations', import.meta.url)),
  )
  try {
    const verified = await verifyRecords(database, kept)
    for (const fault of verified.faults) console.error(sentenceOf(fault))
    tell(verified, kept.length)
    process.exitCode = verified.faults.length === 0 ? 0 : 1
  } finally {
    await database.close()
  }
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
  process.exitCode = 2
}

function sentenceOf({ shopId, sequence, bondId, what }: RecordFault): string {
  const where = [
    shopId && `shop ${shopId}`,
    sequence !== null && `entry ${sequence}`,
    bondId !== null && `bond ${bondId}`,
  ].filter(Boolean)
  return where.length > 0 ? `${where.join(', ')}: ${what}` : what
}

function tell({ bonds, entries, faults, heads, notCompared }: Verified, kept: number): void {
  console.log(
    faults.length === 0
      ? `${entries} entries of ${bonds} bonds, unbroken, and as the tables hold them${kept > 0 ? `; ${kept} kept ${kept === 1 ? 'head is' : 'heads are'} in them` : ''}.`
      : `${faults.length} faults`,
  )
  for (const [kind, count] of Object.entries(notCompared))
    console.log(
      `${count} entries of the kind ${kind}: verified by their hash, their facts compared with nothing.`,
    )
  if (heads.length > 0) console.log('Latest entries, to be kept elsewhere:')
  for (const { shopName, sequence, hash } of heads) console.log(`  ${shopName} #${sequence} ${hash}`)
}
