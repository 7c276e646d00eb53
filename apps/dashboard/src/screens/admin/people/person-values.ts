import type { Person } from '../../../api/types.ts'

/** A person as typed; a role with an empty `shopId` counts in every shop. */
export interface PersonValues {
  name: string
  email: string
  password: string
  mustChangePassword: boolean
  disabled: boolean
  memberships: { shopId: string; role: Person['memberships'][number]['role'] }[]
}
