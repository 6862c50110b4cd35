#include "app/app.h"

int main(int argc, char **argv)
{
    return sw_app(argc, argv);
}
