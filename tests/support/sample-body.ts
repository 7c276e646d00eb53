import * as z from 'zod'

interface Schema {
  readonly $ref?: string
  readonly const?: unknown
  readonly enum?: readonly unknown[]
  readonly anyOf?: readonly Schema[]
  readonly oneOf?: readonly Schema[]
  readonly allOf?: readonly Schema[]
  readonly type?: string
  readonly format?: string
  readonly minimum?: number
  readonly exclusiveMinimum?: number
  readonly minLength?: number
  readonly minItems?: number
  readonly items?: Schema
  readonly properties?: Readonly<Record<string, Schema>>
  readonly required?: readonly string[]
  readonly $defs?: Readonly<Record<string, Schema>>
}

/** What the schema alone doesn't tell: relations between fields, and texts of a pattern of their own; '' is the whole. */
export type Samples = Readonly<Record<string, unknown>>

/**
 * The least that a body or a query of a contract takes, made from its schema: only what is required, each id that of
 * `idOf` by the name of its field. `samples` has values for fields whose schema says too little.
 */
export function sampleOf(
  schema: z.ZodType | undefined,
  idOf: (field: string) => string,
  samples: Samples,
): Record<string, unknown> {
  if (!schema) return {}
  const root = z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }) as Schema
  const made = valueOf(root, '', { root, idOf, samples }) as Record<string, unknown>
  return { ...made, ...(samples[''] as object | undefined) }
}

interface Context {
  readonly root: Schema
  readonly idOf: (field: string) => string
  readonly samples: Samples
}

function valueOf(schema: Schema, field: string, context: Context): unknown {
  if (field !== '' && field in context.samples) return context.samples[field]
  if (schema.$ref) return valueOf(context.root.$defs![schema.$ref.split('/').at(-1)!]!, field, context)
  if (schema.const !== undefined) return schema.const
  if (schema.enum) return schema.enum[0]
  const [choice] = schema.anyOf ?? schema.oneOf ?? schema.allOf ?? []
  if (choice) return valueOf(choice, field, context)
  if (schema.type === 'object' || schema.properties) {
    return Object.fromEntries(
      (schema.required ?? []).map((name) => [name, valueOf(schema.properties?.[name] ?? {}, name, context)]),
    )
  }
  if (schema.type === 'array')
    return Array.from({ length: schema.minItems ?? 0 }, () => valueOf(schema.items ?? {}, field, context))
  if (schema.type === 'number' || schema.type === 'integer')
    return Math.max(
      schema.minimum ?? 0,
      schema.exclusiveMinimum === undefined ? 1 : schema.exclusiveMinimum + 1,
    )
  if (schema.type === 'boolean') return true
  if (schema.type === 'null') return null
  return textOf(schema, field, context)
}

function textOf({ format, minLength = 0 }: Schema, field: string, { idOf }: Context): string {
  if (format === 'uuid') return idOf(field)
  if (format === 'date-time') return '2031-05-08T08:00:00Z'
  if (format === 'date') return '2031-05-08'
  if (format === 'email') return 'somebody@test.example'
  return 'Sample text'.padEnd(minLength, '.')
}
