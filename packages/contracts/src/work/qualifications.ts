import * as z from 'zod'
import { defineRoute } from '../foundation/route.ts'
import { CalendarDate, Id, Instant, Label, Reason } from '../foundation/values.ts'

/** Classes that somebody is qualified for: S4 asks for nobody in particular. */
export const QualifiedClass = z
  .enum(['S1', 'S2', 'S3'])
  .describe('A qualification for a graver class covers the lighter ones')
  .meta({ id: 'QualifiedClass' })

export const Qualification = z
  .object({
    id: Id,
    personId: Id,
    personName: z.string(),
    safetyClass: QualifiedClass,
    evidence: z.string(),
    issuedOn: CalendarDate,
    validUntil: CalendarDate,
    recordedAt: Instant,
    recordedBy: z.string(),
    ended: z.object({ at: Instant, by: z.string(), reason: z.string() }).nullable(),
  })
  .meta({ id: 'Qualification' })
export type Qualification = z.output<typeof Qualification>

export const qualificationRoutes = {
  listQualifications: defineRoute({
    method: 'GET',
    path: '/v1/qualifications',
    operationId: 'listQualifications',
    tag: 'access',
    summary: 'Who may make which class of joint, and until when',
    description: 'Those that have run out or were ended stay in the list: bonds were made under them.',
    access: 'manageChain',
    reach: 'chain',
    query: z.strictObject({ personId: Id.optional() }),
    status: 200,
    response: z.object({ items: z.array(Qualification) }),
  }),
  addQualification: defineRoute({
    method: 'POST',
    path: '/v1/people/:personId/qualifications',
    operationId: 'addQualification',
    tag: 'access',
    summary: 'Record that somebody is qualified for a class of joint',
    access: 'manageChain',
    reach: 'chain',
    params: z.object({ personId: Id }),
    body: z
      .strictObject({
        safetyClass: QualifiedClass,
        evidence: Label.describe('Course, examiner and number of the certificate'),
        issuedOn: CalendarDate,
        validUntil: CalendarDate.describe('The last day that counts, to its end in the shop'),
      })
      .refine((q) => q.issuedOn <= q.validUntil, {
        path: ['validUntil'],
        error: 'must not be before issuedOn',
      }),
    status: 201,
    response: Qualification,
  }),
  endQualification: defineRoute({
    method: 'POST',
    path: '/v1/qualifications/:qualificationId/end',
    operationId: 'endQualification',
    tag: 'access',
    summary: 'End a qualification before its day, with the reason',
    access: 'manageChain',
    reach: 'chain',
    params: z.object({ qualificationId: Id }),
    body: z.strictObject({ reason: Reason }),
    status: 201,
    response: Qualification,
  }),
}
