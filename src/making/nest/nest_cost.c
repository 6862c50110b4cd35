#include "making/nest/nest.h"

double sw_steel_cost(double price, double sheet_kg, double parts_kg, double remnant_kg, double remnant_factor,
                     double scrap_price)
{
    if (sheet_kg <= 0) return price;
    double skeleton_kg = sheet_kg - parts_kg - remnant_kg;
    return price - scrap_price * skeleton_kg - remnant_factor * price * remnant_kg / sheet_kg;
}
