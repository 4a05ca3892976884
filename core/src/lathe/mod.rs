//! A plain model of a lathe that carries out a procedure's actions, and says what goes wrong.
