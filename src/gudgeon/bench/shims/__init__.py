"""Which shim goes where: readings, kit and sheet on one side, the choice and the steps to it on the other."""
