import { Button, Group } from '@mantine/core'
import { Plus } from 'lucide-react'

interface Props {
  readonly addLabel: string
  /** Left out for those who may not add. */
  readonly onAdd?: (() => void) | undefined
}

export function SectionHead({ addLabel, onAdd }: Props) {
  if (onAdd === undefined) return null
  return (
    <Group mb="xs">
      <Button variant="default" leftSection={<Plus size={16} aria-hidden />} onClick={onAdd}>
        {addLabel}
      </Button>
    </Group>
  )
}
