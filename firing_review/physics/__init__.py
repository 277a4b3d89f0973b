"""Laws and published relations: cones, heat balance, element wire, thermocouples, circuits."""
