import { Button, Checkbox, Popover } from '@mantine/core';
import { metricInWords } from './cell-words.ts';
import classes from './table.module.css';
import type { ShownMetric } from './table-layout.ts';

interface MetricPickerProps {
  readonly metrics: readonly ShownMetric[];
  readonly chosen: readonly string[];
  readonly onChange: (chosen: readonly string[]) => void;
}

/** Which metrics the table shows, in the order of their definitions; at least one. */
export function MetricPicker({ metrics, chosen, onChange }: MetricPickerProps) {
  const toggle = (key: string, on: boolean) => {
    const next = metrics
      .map((metric) => metric.key)
      .filter((each) => (each === key ? on : chosen.includes(each)));
    if (next.length > 0) onChange(next);
  };
  return (
    <Popover position="bottom-start" shadow="md" trapFocus>
      <Popover.Target>
        <Button>Metrics ({chosen.length})</Button>
      </Popover.Target>
      <Popover.Dropdown aria-label="Metrics of the table">
        <div className={classes.metricList}>
          {metrics.map((metric) => (
            <Checkbox
              key={metric.key}
              size="xs"
              label={metric.name}
              title={metricInWords(metric)}
              checked={chosen.includes(metric.key)}
              onChange={(event) => toggle(metric.key, event.currentTarget.checked)}
            />
          ))}
        </div>
      </Popover.Dropdown>
    </Popover>
  );
}
