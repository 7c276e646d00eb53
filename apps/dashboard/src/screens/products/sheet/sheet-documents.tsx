import { ROUTES } from '../../../api/contracts.ts'
import { FileButton, Button, Group } from '@mantine/core'
import { FileUp } from 'lucide-react'
import { useState } from 'react'
import { urlOf } from '../../../api/url.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import type { ProductSheet } from '../../../api/types.ts'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly productId: string
  readonly sheet: ProductSheet
}

/** The maker's own PDF of a revision: what its figures are compared with. */
export function SheetDocuments({ productId, sheet }: Props) {
  const may = useMay()
  const [fault, setFault] = useState<Error | null>(null)
  const add = useAction(ROUTES.addSheetDocument, { topics: ['products'] })
  const params = { productId, sheetId: sheet.id }
  const send = async (file: File | null) => {
    if (file === null) return
    setFault(null)
    try {
      add.mutate({ params, body: { name: file.name.slice(0, 120), base64: await base64Of(file) } })
    } catch {
      setFault(new Error(t('products.theFileCouldNotBeRead')))
    }
  }
  return (
    <div>
      {sheet.documents.length > 0 && (
        <ul>
          {sheet.documents.map(({ id, name, bytes, by }) => (
            <li key={id}>
              <a
                href={urlOf(ROUTES.getSheetDocument.path, { ...params, documentId: id }, undefined)}
                target="_blank"
                rel="noreferrer"
              >
                {name}
              </a>
              {`, ${t('products.kBAddedBy', { kB: Math.max(1, Math.round(bytes / 1024)), by })}`}
            </li>
          ))}
        </ul>
      )}
      <ProblemPanel error={fault ?? add.error} />
      {may('manageCatalogue', null) && (
        <Group>
          <FileButton accept="application/pdf" onChange={(file) => void send(file)}>
            {(props) => (
              <Button
                {...props}
                variant="default"
                size="sm"
                loading={add.isPending}
                leftSection={<FileUp size={16} aria-hidden />}
              >
                {t('products.addTheMakerRsquoSPdfOf', { revision: sheet.revision })}
              </Button>
            )}
          </FileButton>
        </Group>
      )}
    </div>
  )
}

async function base64Of(file: File): Promise<string> {
  const bytes = new Uint8Array(await file.arrayBuffer())
  let text = ''
  // A call takes only so many arguments.
  for (let at = 0; at < bytes.length; at += 0x8000)
    text += String.fromCodePoint(...bytes.subarray(at, at + 0x8000))
  return btoa(text)
}
