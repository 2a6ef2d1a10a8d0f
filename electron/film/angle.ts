/** From where a film was taken. Sideline is the wide view of all 22; end zone looks along the field from behind. */
export type Angle = 'sideline' | 'endzone' | 'other';
