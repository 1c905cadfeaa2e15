// Nothing: the package that this stands in for is left out on purpose.
module.exports = undefined;
