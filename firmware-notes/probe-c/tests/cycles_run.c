/*
 * Runs cycles.c on a simulated ATmega2560 and prints what it says on its serial line, until it sleeps for good.
 *
 * This program is free software: you can redistribute it and/or modify it under the terms of the GNU General Public License
 * as published by the Free Software Foundation, either version 3 of the License, or (at your option) any later version. It is
 * distributed WITHOUT ANY WARRANTY; without even the implied warranty of MERCHANTABILITY or FITNESS FOR A PARTICULAR
 * PURPOSE. See <https://www.gnu.org/licenses/>. It links to libsimavr, which is under that licence.
 */
#include <avr_uart.h>
#include <sim_avr.h>
#include <sim_elf.h>
#include <stdio.h>

static void said(avr_irq_t *irq, uint32_t value, void *unused) {
    (void)irq;
    (void)unused;
    putchar((int)value);
}

int main(int count, char **arguments) {
    static elf_firmware_t firmware;
    uint32_t no_flags = 0;
    avr_t *avr = avr_make_mcu_by_name("atmega2560");
    if (count != 2 || avr == NULL || elf_read_firmware(arguments[1], &firmware) != 0) {
        fprintf(stderr, "wanted: cycles_run FIRMWARE.elf\n");
        return 2;
    }
    avr_init(avr);
    avr_load_firmware(avr, &firmware);
    avr->frequency = 16000000;
    avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &no_flags);
    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT), said, NULL);
    for (;;) {
        int state = avr_run(avr);
        if (state == cpu_Crashed) {
            return 1;
        }
        if (state == cpu_Done) {
            return 0;
        }
    }
}
