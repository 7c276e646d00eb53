import { patterns as alert } from './en/service/alert.ts'
import { patterns as finding } from './en/service/finding.ts'
import { patterns as incident } from './en/service/incident.ts'
import { patterns as mail } from './en/service/mail.ts'
import { patterns as note } from './en/service/note.ts'
import { patterns as planRule } from './en/service/plan-rule.ts'
import { patterns as problem } from './en/service/problem.ts'
import { patterns as reason } from './en/service/reason.ts'

/** What the service says and no page does: kept out of what pages load. English is the source of keys. */
export const service = {
  alert,
  finding,
  incident,
  mail,
  note,
  'plan-rule': planRule,
  problem,
  reason,
}
