import type { Joint } from '@clampclock/contracts'
import { dateOf, isoDate } from '../../foundation/http/dates.ts'

interface ProcedureColumns {
  readonly procedureDocument: string | null
  readonly procedureRevision: string | null
  readonly procedureLookedUpOn: Date | null
}

/** The columns hold all of a procedure or nothing (`joint__procedure_is_whole`). */
export function procedureOf(row: ProcedureColumns): Joint['procedure'] {
  const { procedureDocument, procedureRevision, procedureLookedUpOn } = row
  if (procedureDocument === null || procedureRevision === null || procedureLookedUpOn === null) return null
  return {
    document: procedureDocument,
    revision: procedureRevision,
    lookedUpOn: isoDate(procedureLookedUpOn),
  }
}

export function procedureColumns(procedure: Joint['procedure']): ProcedureColumns {
  return {
    procedureDocument: procedure?.document ?? null,
    procedureRevision: procedure?.revision ?? null,
    procedureLookedUpOn: procedure ? dateOf(procedure.lookedUpOn) : null,
  }
}
