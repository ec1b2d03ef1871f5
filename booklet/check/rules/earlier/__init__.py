"""The manual pages of what the stages before the bench find: reading and modelling. `check` never imports them."""
