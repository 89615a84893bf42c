// The proxy lets nobody in and keeps nobody out: the whole matrix must hold without it. Imported in this order, the second file
// registers its tests here and serves the build without its proxy.
import './without-proxy'
import './role-matrix.test'
