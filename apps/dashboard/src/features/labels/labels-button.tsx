import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { Printer } from 'lucide-react'
import { lazily } from '../../ui/lazily.tsx'
import { t } from '../../lib/reader.ts'

const LabelsDialog = lazily(async () => (await import('./labels-dialog.tsx')).LabelsDialog)

interface Props {
  /** What is printed: a delivery, a lot or one cartridge. */
  readonly what?: Record<string, string>
  /** Of a shop: one of them is chosen before anything is printed. */
  readonly shelves?: readonly { readonly id: string; readonly name: string }[]
  readonly label?: string
  readonly count?: number | undefined
}

/** Prints labels. */
export function LabelsButton({ what = {}, shelves = [], label = t('features.printLabels'), count }: Props) {
  const [opened, { open, close }] = useDisclosure()
  return (
    <>
      <Button variant="default" leftSection={<Printer size={16} aria-hidden />} onClick={open}>
        {label}
      </Button>
      {opened && <LabelsDialog what={what} shelves={shelves} count={count} onClose={close} />}
    </>
  )
}
