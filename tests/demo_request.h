/* demo_request.h: a request about demonstration stove (a) in the demonstration works, for tests and benchmarks to vary. */
#ifndef SW_TESTS_DEMO_REQUEST_H
#define SW_TESTS_DEMO_REQUEST_H

#include "app/app.h"

#define DEMO_REQUEST                                                                                                   \
    {                                                                                                                  \
        .command = "check", .words = {SW_SOURCE_DIR "/demo/a.stove.lua"}, .word_count = 1,                             \
        .works = SW_SOURCE_DIR "/demo/demo.works.lua", .batch = 1, .seed = 1, .threads = 1                             \
    }

#endif
