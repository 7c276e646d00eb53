import { ROUTES } from '../contracts.ts'
import { queryOptions } from '@tanstack/react-query'
import { call } from '../client.ts'

/** Photos and notes of a vehicle, of its joints and of their bonds. */
export const attachmentsQuery = (repairOrderId: string, shopId: string) =>
  queryOptions({
    queryKey: ['attachments', repairOrderId],
    queryFn: ({ signal }) => call(ROUTES.listAttachments, { params: { repairOrderId }, signal }),
    meta: { topics: ['attachments'], shopId },
  })
