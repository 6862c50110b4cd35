/* example.h: the files of src/app/example/, put into the program at build time (CMakeLists.txt). */
#ifndef SW_APP_EXAMPLE_H
#define SW_APP_EXAMPLE_H

#include <stddef.h>

typedef struct sw_example {
    const char *name;
    const unsigned char *text;
    size_t length;
} sw_example;
extern const sw_example sw_examples[];
extern const size_t sw_example_count;

#endif
