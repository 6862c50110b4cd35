/* joint_parts.h: what scene and network take a joint for. For this folder only. */
#ifndef SW_HEAT_JOINT_PARTS_H
#define SW_HEAT_JOINT_PARTS_H

#define HEAT_JOINT_K 473.15 /* temperature of the conductivity of sheets at joints; ours: it changes little */

#endif
