/* What the two examples want of a board. They are compiled, not run. */
#ifndef BOARD_H
#define BOARD_H

#include <stdbool.h>
#include <stdint.h>

void board_start(void);
void board_wait_for_tick(void);
int board_height(void);
int board_current(void);
bool board_start_button(void);
void board_motor(int drive);
/* Only for the probe: */
void board_motor_hold(void);
bool board_is_standing(void);
bool board_key(void);
uint16_t board_send(const uint8_t *bytes, uint16_t count);
int16_t board_receive(void);
uint32_t board_micros(void);
uint32_t board_next_boot_id(void);
uint8_t board_reset_cause(void);

#endif
