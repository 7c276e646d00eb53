import { fileURLToPath } from 'node:url'
import { readConfig } from '../../foundation/config/config.ts'
import { connect } from '../../foundation/database/connect.ts'
import { verifyLedger } from './verify.ts'

/** `npm run ledger:verify`: exits with 1 when the ledger does not add up, and names each difference. */
try {
  const database = await connect(
    readConfig(process.env, []),
    fileURLToPath(new URL('../../../prisma/migrations', import.meta.url)),
  )
  try {
    const faults = await verifyLedger(database)
    for (const fault of faults)
      console.error(`${fault.what} ${fault.id}: kept ${fault.kept}; the ledger says ${fault.fromLedger}`)
    console.log(faults.length === 0 ? 'The ledger adds up.' : `${faults.length} differences`)
    process.exitCode = faults.length === 0 ? 0 : 1
  } finally {
    await database.close()
  }
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
  process.exitCode = 2
}
