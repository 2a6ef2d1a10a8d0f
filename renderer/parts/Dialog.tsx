import { Modal } from '@mantine/core';
import type { ReactNode } from 'react';
import { CommandLayer } from '../commands/Commands.tsx';
import classes from './Dialog.module.css';

interface DialogProps {
  readonly opened: boolean;
  readonly title: ReactNode;
  readonly size: string | number;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A dialog over the room. While it is open only its own keys act, and its head is no second banner of the page. */
export function Dialog({ opened, title, size, onClose, children }: DialogProps) {
  return (
    <Modal.Root opened={opened} onClose={onClose} size={size} centered>
      <Modal.Overlay backgroundOpacity={0.7} />
      <Modal.Content>
        <div className={classes.head}>
          <Modal.Title>{title}</Modal.Title>
          <Modal.CloseButton aria-label="Close" />
        </div>
        <Modal.Body>
          <CommandLayer over>{children}</CommandLayer>
        </Modal.Body>
      </Modal.Content>
    </Modal.Root>
  );
}
