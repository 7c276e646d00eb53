import { fileURLToPath } from 'node:url'
import { readConfig } from '../config.ts'
import { connect } from '../database/connect.ts'
import { verifyRecords } from './verify.ts'

/** `npm run records:verify`: exits with 1 when a chain of bond records is broken, and names the first broken link. */
try {
  const database = await connect(
    readConfig(process.env, []),
    fileURLToPath(new URL('../../../prisma/migrations', import.meta.url)),
  )
  try {
    const { entries, faults } = await verifyRecords(database)
    for (const { shopId, sequence, bondId, what } of faults) {
      const where = sequence === null ? '' : `entry ${sequence} `
      console.error(`shop ${shopId}, ${where}of bond ${bondId}: ${what}`)
    }
    console.log(faults.length === 0 ? `${entries} entries, unbroken.` : `${faults.length} faults`)
    process.exitCode = faults.length === 0 ? 0 : 1
  } finally {
    await database.close()
  }
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
  process.exitCode = 2
}
